"""Photographs with a marked spot that authors give a feature or a state, where no drawing fits: `MarkedPhotograph`."""
