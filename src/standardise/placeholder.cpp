// Replaced by the room's sources.
