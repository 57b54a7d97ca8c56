"""Changes of what versions rest on, makers, services, sources and number forms, proposed and decided as others are."""
