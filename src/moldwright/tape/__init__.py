"""The original by tape measure: from girths at heights to a closed solid with the ranges of its volume and area."""
