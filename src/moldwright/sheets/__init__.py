"""What is printed or exported: bench sheets, shopping lists, pictures, STL and 3MF."""

from moldwright.sheets.writing import write_sheets

__all__ = ["write_sheets"]
