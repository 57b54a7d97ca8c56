"""Dating, pure: from label years to the likely true ends of production."""
