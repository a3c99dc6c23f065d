"""Labels for what the shop keeps."""
