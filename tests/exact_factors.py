"""Units of trade by their definitions, all exact (NIST SP 811, appendix B; from memory)."""

INCH_MM = 25.4
POUND_G = 453.59237
OUNCE_G = POUND_G / 16
GALLON_ML = 231 * 2.54**3
FLUID_OUNCE_ML = GALLON_ML / 128
