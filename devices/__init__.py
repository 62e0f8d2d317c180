"""What is plugged in: probes, ports, pedal and voice, and the rehearsal that stands in for a probe."""
