#!/bin/sh
# Checks the definitions of a repository on any continuous integration host that has Node and git; no container needed.
# It wants one variable:  BASE  the revision that the change is compared with, e.g. origin/main
# and leaves in the folder `reports`:  findings.xml (test results), findings.sarif, consequences.md (for the change request)
set -u
mkdir -p reports
base=${BASE:-origin/main}

# What is wrong now. The exit code of this line is the result: 1 findings, 2 something could not be read.
fettle check --format junit '**/*.{machine,part}.yaml' > reports/findings.xml
result=$?
fettle check --fail-on never --format sarif '**/*.{machine,part}.yaml' > reports/findings.sarif
# Beside the changed lines, on hosts that read annotations from the log.
fettle check --fail-on never --changed-since "$base" --format annotations

# What follows from the change, machine by machine.
: > reports/consequences.md
git diff --name-only --diff-filter=M "$base" -- '*.machine.yaml' | while read -r file; do
  fettle diff --format markdown --git "$base" "$file" >> reports/consequences.md
done
exit $result
