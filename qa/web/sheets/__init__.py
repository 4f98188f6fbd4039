"""What each sheet shows, as frozen records built by functions that need no server."""
