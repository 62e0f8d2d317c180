"""What is plugged in: probes, ports, and the rehearsal that stands in for them."""
