# All paths are relative: make can't hold a path with a space in it.
SHELL := bash
PYTHON_IN := .venv/bin/python
MANAGE := $(PYTHON_IN) manage.py
STYLE ?= sales-tax
.DEFAULT_GOAL := help
.NOTPARALLEL:
.PHONY: help setup setup-dev packages demo-data demo serve test format bench pages outside-checks reference pictures gallery faults words lock audit-packages rights-table fuzz load move properties

help: ## say what can be asked
	@grep -hE '^[a-z-]+:.*## ' Makefile | sed -E 's/^([a-z-]+):.*## (.*)/make \1\t\2/' | expand -t 18

packages:
	@.ci/system-packages run

setup: ## build .venv from the lock
	@.ci/environment run
	@.ci/words

setup-dev: ## the same with what tests and checks need
	@.ci/environment dev
	@.ci/words

# The default demo fills the data folder that every command uses; the other stands beside it, so that neither
# mixes with the other. A workshop of your own in that folder is never touched: the demo then refuses.
DATA_OF_DEMO := $(if $(filter sales-tax,$(STYLE)),data,data/$(STYLE))
demo demo-data pictures gallery: export DATA_DIR ?= $(DATA_OF_DEMO)

demo-data: packages setup ## a demo workshop (STYLE=sales-tax or value-added-tax), one quote worked out into out/
	@$(MANAGE) migrate --verbosity 0
	@$(MANAGE) collectstatic --noinput --verbosity 0
	@$(MANAGE) demo --style $(STYLE) --out out

demo: demo-data ## the same, then serve the site on 127.0.0.1 (PORT=8000)
	@$(MANAGE) serve

serve: ## serve the site as it stands
	@$(MANAGE) serve

test: ## all checks, and all tests on SQLite and PostgreSQL
	@.ci/prepare
	@.ci/gate

format: setup-dev ## put the code into shape
	@$(PYTHON_IN) -m ruff check --fix --quiet .
	@$(PYTHON_IN) -m ruff format .

bench: setup-dev ## time everything beside the bare libraries, on both databases; writes its report into DEVELOPERS.md (ONLY=search)
	@$(PYTHON_IN) -m tests.bench_report $(if $(ONLY),--only $(ONLY),--write)

pages: setup-dev ## time every page on ten years of trading, on both databases; writes its report into DEVELOPERS.md
	@$(PYTHON_IN) -m tests.bench_pages --write

faults: setup-dev ## kill processes while people work, a hundred rounds on each database; writes the report (ROUNDS=100)
	@$(PYTHON_IN) -m tests.faults --rounds $(or $(ROUNDS),100)
	@$(PYTHON_IN) -m tests.faults.workers
	@.ci/postgres $(PYTHON_IN) -m tests.faults.workers

outside-checks: setup-dev ## write the table of outside checks into DEVELOPERS.md
	@$(PYTHON_IN) -m tests.outside.table

reference: setup-dev ## fit hundreds of random cases beside lifelines and reliability
	@$(PYTHON_IN) -m tests.outside.reference

gallery: demo-data setup-dev ## photograph every page, at three widths and on paper, into out/gallery
	@$(PYTHON_IN) -m tests.browser.gallery

words: setup-dev ## bring the files of words up to what is said, and name what waits for translation
	@$(PYTHON_IN) -m tests.words
	@$(PYTHON_IN) -m tests.words left
	@.ci/words

properties: setup-dev ## test what must hold of any numbers on 1000 examples each, where the gate takes 30
	@$(PYTHON_IN) -m pytest -q tests/calc tests/documents tests/outside --hypothesis-profile many

fuzz: setup-dev ## bad input at scale on PostgreSQL (20,000) and SQLite; writes its report into DEVELOPERS.md
	@.ci/postgres $(PYTHON_IN) -m tests.fuzz --write
	@$(PYTHON_IN) -m tests.fuzz --inputs 4000 --style sales-tax --write

load: setup-dev ## 30 people at work for 10 minutes on PostgreSQL; writes its report into DEVELOPERS.md
	@.ci/postgres $(PYTHON_IN) -m tests.load --write

move: setup-dev ## move a year of demo trading to PostgreSQL and compare; writes its report into DEVELOPERS.md
	@.ci/postgres $(PYTHON_IN) -m tests.moving

pictures: demo-data setup-dev ## take the README's pictures from the demo
	@$(PYTHON_IN) -m tests.browser.pictures

lock: setup-dev ## write both locks again from pyproject.toml
	@.ci/lock

audit-packages: setup-dev ## ask whether a fault is known of any locked package (needs the network)
	@.ci/audit-packages

rights-table: setup-dev ## write the table of rights into DEVELOPERS.md
	@$(MANAGE) shell --no-imports -c "from tests.rights.table import main; main()"
