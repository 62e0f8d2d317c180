"""The review: one sitting that was kept, looked at."""
