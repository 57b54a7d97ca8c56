"""Millimetres in words."""

MM_AN_INCH = 25.4  # exactly, by the international yard and pound agreement of 1959 (from memory)


def in_words(mm: int) -> str:
    """`55.5 cm (21.9 in)`: as a tape shows it, to the millimetre and to a tenth of an inch."""
    centimetres = f"{mm / 10:.1f}".removesuffix(".0")
    return f"{centimetres} cm ({mm / MM_AN_INCH:.1f} in)"
