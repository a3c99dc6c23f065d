"""Work on untrusted files in a child process with bounds on memory and time, which ends with the process it serves."""
