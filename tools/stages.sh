# shellcheck shell=bash disable=SC2154
# Sourced by ./try and ./check: runs a stage with its log, its time and a sign of life.
# Needs root_dir; leaves logs in build/log.

export LC_ALL=C.UTF-8 ASAN_OPTIONS=print_legend=0
log_dir=$root_dir/build/log
mkdir -p "$log_dir"

# A clone in another folder finds the same compiler cache.
export CCACHE_BASEDIR=$root_dir CCACHE_NOHASHDIR=1
if [ ! -w "${HOME:-/nowhere}" ]; then
  export HOME=$root_dir/build/home
  mkdir -p "$HOME"
fi

# As many compilers at once as there are processors and 1.5 GB of memory for each.
jobs_at_once() {
  local processors memory
  processors=$(nproc)
  memory=$(awk '/^MemAvailable/ { print int($2 / 1500000) }' /proc/meminfo 2> /dev/null || true)
  if [ -n "$memory" ] && [ "$memory" -lt "$processors" ]; then processors=$memory; fi
  if [ "$processors" -lt 1 ]; then processors=1; fi
  echo "$processors"
}

sign_of_life() {  # every half minute, the last line of the log
  local log=$1 seconds=0
  # Its sleep must not hold the output open, and it must not outlive an interrupted script.
  while sleep 30 < /dev/null > /dev/null 2>&1 && kill -0 $$ 2> /dev/null; do
    seconds=$((seconds + 30))
    printf '   ... %d s: %s\n' "$seconds" "$(tail -n 1 "$log" | cut -c 1-90)"
  done
}

# stage CLOSING NAME COMMAND...: runs the command, shows the last CLOSING lines it wrote (more when it failed).
stage() {
  local closing=$1 name=$2 log begin life status=0
  shift 2
  log=$log_dir/$(tr ' ' '_' <<< "$name").log
  begin=$SECONDS
  printf '== %s\n' "$name"
  : > "$log"
  sign_of_life "$log" &
  life=$!
  "$@" > "$log" 2>&1 < /dev/null || status=$?
  { kill "$life" && wait "$life"; } 2> /dev/null || true
  if [ "$status" -eq 0 ]; then
    tail -n "$closing" "$log" | sed 's/^/   /'
    printf '   done in %d s\n' $((SECONDS - begin))
  else
    tail -n 40 "$log" | sed 's/^/   /'
    printf '   FAILED after %d s; all it wrote: %s\n' $((SECONDS - begin)) "${log#"$root_dir"/}"
  fi
  return "$status"
}
