"""The moderators' queue of members' pieces."""
