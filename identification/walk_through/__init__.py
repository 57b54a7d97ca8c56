"""Which version is this? One question a page, all answers in the address."""
