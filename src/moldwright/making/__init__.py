"""From a commission's file, and the files that it names, to a plan's folder: nothing here prints or asks."""
