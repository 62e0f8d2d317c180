"""The profiles that ship, a TOML file each; `devices.profile_reader` reads them."""
