"""Take in: an original by scan, photos, tape, water or weight, and what is to be made of it."""
