"""Units, figures, findings and faults: what every layer speaks in."""
