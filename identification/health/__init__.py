"""How well a reference does its work: what it cannot separate, what to record next, how often people err. Pure."""
