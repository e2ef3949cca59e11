"""The documents of a job pack: each is one module that fills a paper with what the engine found."""
