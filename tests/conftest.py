"""Here so that every test finds the helpers in this folder, such as `sketch`."""
