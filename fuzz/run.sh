#!/bin/bash
# Runs every fuzz target for so many seconds each, on one core: fuzz/run.sh SECONDS [TARGET...]
# Needs a nightly compiler and cargo-fuzz. Inputs that once failed are tried first.
set -euo pipefail
seconds=${1:?usage: fuzz/run.sh SECONDS [TARGET...]}
targets=("${@:2}")
[ ${#targets[@]} -gt 0 ] || targets=(quantity_text job_document plan_of_job)

cd "$(dirname "$0")"
python3 seeds.py
for target in "${targets[@]}"; do
    mkdir -p "regressions/$target"
    cargo +nightly fuzz run "$target" "corpus/$target" "regressions/$target" -- \
        -max_total_time="$seconds" -timeout=10 -rss_limit_mb=2048 -max_len=4096 -dict=corpus/words.dict -print_final_stats=1
done
