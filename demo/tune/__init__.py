"""The demo tune: what is played (score), how it is played (lead, band, clock), and the files made of it."""
