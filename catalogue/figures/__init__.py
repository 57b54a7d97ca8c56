"""Technical flats: line drawings of a garment laid flat, composed from what a record says."""
