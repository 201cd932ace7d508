"""Charts of plugs as they come, in files of rows and columns, read into a plug's rows of the job file."""
