"""Photos, receipts and papers that records name and that lie beside the store."""

from __future__ import annotations

from farmops.model.notes import KeptFile
from farmops.records.reading import Reader

KEPT = """
    SELECT file, MIN(name) AS name, sha256 FROM (
        SELECT file, file_name AS name, file_sha256 AS sha256 FROM note WHERE file IS NOT NULL
        UNION ALL SELECT receipt, receipt_name, receipt_sha256 FROM cost WHERE receipt IS NOT NULL
        UNION ALL SELECT file, file_name, file_sha256 FROM paper WHERE file IS NOT NULL
    ) AS named GROUP BY file, sha256 ORDER BY file, sha256
"""


def kept_files(reader: Reader) -> list[KeptFile]:
    """Every file that a record names, once."""
    return reader.all(KeptFile, KEPT)
