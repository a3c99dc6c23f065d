"""Shop: this device, the devices that are signed in, the records as a whole."""
