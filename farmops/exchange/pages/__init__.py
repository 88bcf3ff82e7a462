"""Printed pages: papers, lettering, blocks to build them from, and the file they become."""
