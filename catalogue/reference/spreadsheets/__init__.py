"""The reference as a folder of CSV files, in and out."""
