"""What can be laid on a mold's surface: each file of this folder is one quantity, with its numbers and its words."""
