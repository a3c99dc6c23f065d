"""An original known by photographs on a printed sheet: from pictures to a closed solid with an honest range."""
