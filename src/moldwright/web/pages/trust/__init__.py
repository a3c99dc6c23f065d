"""Trust: how a tablet takes this desk's certificate authority in, so that its connection is not warned of."""
