"""What a version is likely to be mistaken for, worked out beforehand from how often each feature is got wrong."""
