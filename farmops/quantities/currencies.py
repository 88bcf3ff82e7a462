"""Currencies: their codes, how many decimals each has, and the signs they are written with."""

from __future__ import annotations

# ISO 4217, list one (current currencies) of 1 January 2026, as published by its maintenance agency.
_DECIMALS = {
    0: "BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF",
    2: """AED AFN ALL AMD AOA ARS AUD AWG AZN BAM BBD BDT BMD BND BOB BOV BRL BSD BTN BWP BYN BZD CAD CDF
        CHE CHF CHW CNY COP COU CRC CUP CVE CZK DKK DOP DZD EGP ERN ETB EUR FJD FKP GBP GEL GHS GIP GMD GTQ
        GYD HKD HNL HTG HUF IDR ILS INR IRR JMD KES KGS KHR KPW KYD KZT LAK LBP LKR LRD LSL MAD MDL MGA MKD
        MMK MNT MOP MRU MUR MVR MWK MXN MXV MYR MZN NAD NGN NIO NOK NPR NZD PAB PEN PGK PHP PKR PLN QAR RON
        RSD RUB SAR SBD SCR SDG SEK SGD SHP SLE SOS SRD SSP STN SVC SYP SZL THB TJS TMT TOP TRY TTD TWD TZS
        UAH USD USN UYU UZS VED VES WST XAD XCD XCG YER ZAR ZMW ZWG""",
    3: "BHD IQD JOD KWD LYD OMR TND",
    4: "CLF UYW",
}

CURRENCIES = {code: decimals for decimals, codes in _DECIMALS.items() for code in codes.split()}

_SIGNS = {
    "$": "USD CAD AUD NZD SGD HKD MXN TWD BBD BSD BZD FJD JMD TTD",
    "€": "EUR",
    "£": "GBP GIP FKP SHP EGP",
    "¥": "JPY CNY",
    "₹": "INR",
    "₩": "KRW",
    "₪": "ILS",
    "₱": "PHP",
    "₫": "VND",
    "₴": "UAH",
    "₦": "NGN",
}

SIGN_OF = {code: sign for sign, codes in _SIGNS.items() for code in codes.split()}
