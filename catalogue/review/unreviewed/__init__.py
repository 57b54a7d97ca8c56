"""Records that nobody proposed, from an import or by hand: listed, looked through in batches, put back."""
