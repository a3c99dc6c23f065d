"""What is understood of an original before anything is planned: values, lines of words, pictures as bytes."""
