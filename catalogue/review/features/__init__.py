"""Features under review: what each said at every time, who changed it and why, and proposals to change it."""
