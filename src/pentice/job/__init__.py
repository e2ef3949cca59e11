"""The job file: model, reading, writing, survey red flags."""
