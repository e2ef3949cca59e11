# make run     sets up and makes the pack of the first example      make run JOB=my-roof.toml
# make test    sets up and passes every test
# make bench   times it
# make bench-cutting DATA=folder    cutting against published data; add COMPILED=1 for the inner loops compiled
# make oracles compares our results with other programs
# make hunt    tries ten times as many random cases as make test does, and new ones each time
# Everything is a small script in scripts/; docs/windows.md tells how to do without make.

.PHONY: run test hunt bench bench-cutting oracles cover lock clean
JOB ?= examples/potting-bay.toml
export PYTHON

run:
	@sh scripts/run $(JOB)

test:
	@sh scripts/check

hunt:
	@sh scripts/setup test
	@PENTICE_TRIES=10 .venv/bin/python -m pytest -n 2 tests/properties

bench:
	@sh scripts/setup test
	@.venv/bin/python bench/run.py

bench-cutting:
	@sh scripts/setup $(if $(COMPILED),fast,test)
	@PYTHONPATH=src:. .venv/bin/python bench/cutting.py $(DATA)
	@PYTHONPATH=src:. .venv/bin/python -m bench.shop

oracles:
	@sh scripts/oracles

cover:
	@sh scripts/check --cov --cov-report=term

lock:
	@sh scripts/lock

clean:
	rm -rf .venv build dist packs bench/out .pytest_cache .mypy_cache .ruff_cache .hypothesis .import_linter_cache
