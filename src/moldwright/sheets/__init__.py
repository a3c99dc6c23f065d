"""What is printed or exported: bench sheets, shopping lists, pictures, STL and 3MF."""
