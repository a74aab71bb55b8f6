#!/usr/bin/env bash
# scripts/compare_in_parts gives the bytes of one run: on the invented season with GNU parallel, and with Slurm on a
# cluster of one node that is started for it where the machine lets us (as root) and stopped afterwards. A machine that
# starts no cluster is said and is no failure; other bytes are.
#
#   scripts/check_parts.sh BUILD
set -euo pipefail
cd "$(dirname "$0")/.."
build=$(realpath "${1:?usage: scripts/check_parts.sh BUILD}")
export QUARTERCUT=$build/src/cli/quartercut
if ! scripts/install_packages --with-clusters; then
  echo "Parts: not tried, their packages could not be installed here."
  exit 0
fi
work=$(mktemp -d)
started=()
finish() {
  # The daemons write their state while they end: the folder goes when the last of them has, within half a minute.
  for pid in "${started[@]}"; do kill "$pid" 2>/dev/null || true; done
  for _ in $(seq 300); do
    still_running || break
    sleep 0.1
  done
  for pid in "${started[@]}"; do kill -KILL "$pid" 2>/dev/null || true; done
  wait
  rm -rf "$work"
}
still_running() {
  for pid in "${started[@]}"; do kill -0 "$pid" 2>/dev/null && return 0; done
  return 1
}
trap finish EXIT

same_as_one_run() {
  diff -r "$work/$1/results" "$work/one/results" || {
    echo "check_parts: the parts joined by $1 differ from one run." >&2
    exit 1
  }
  echo "Parts by $1: the bytes of one run."
}

start_cluster() {
  local name
  name=$(hostname -s)
  mkdir -p "$work/cluster/state" "$work/cluster/spool" /run/munge
  [ -s /etc/munge/munge.key ] || /usr/sbin/mungekey --create || return 1
  chown munge: /run/munge /etc/munge/munge.key || return 1
  runuser -u munge -- /usr/sbin/munged --force --pid-file="$work/munged.pid" 2>/dev/null ||
    /usr/sbin/munged --force || return 1
  started+=("$(pgrep -n munged)")
  cat >"$work/cluster/slurm.conf" <<CONF
ClusterName=here
SlurmctldHost=$name(127.0.0.1)
SlurmUser=root
AuthType=auth/munge
StateSaveLocation=$work/cluster/state
SlurmdSpoolDir=$work/cluster/spool
SlurmctldPidFile=$work/cluster/slurmctld.pid
SlurmdPidFile=$work/cluster/slurmd.pid
ProctrackType=proctrack/linuxproc
TaskPlugin=task/none
SchedulerType=sched/backfill
SelectType=select/cons_tres
SelectTypeParameters=CR_CPU
ReturnToService=2
NodeName=$name NodeAddr=127.0.0.1 CPUs=$(nproc) State=UNKNOWN
PartitionName=all Nodes=$name Default=YES MaxTime=INFINITE State=UP
CONF
  export SLURM_CONF=$work/cluster/slurm.conf
  /usr/sbin/slurmctld -D >"$work/slurmctld.log" 2>&1 &
  started+=($!)
  /usr/sbin/slurmd -D >"$work/slurmd.log" 2>&1 &
  started+=($!)
  for _ in $(seq 60); do
    [ "$(sinfo -h -o %T 2>/dev/null)" = idle ] && return 0
    sleep 0.5
  done
  tail -5 "$work"/slurm*.log
  return 1
}

for copy in one parallel slurm; do cp -r sample_geo "$work/$copy" && rm -rf "$work/$copy"/{results,parts}; done
"$QUARTERCUT" compare "$work/one/season.toml" --quiet

scripts/compare_in_parts parallel "$work/parallel/season.toml" 3 >/dev/null
same_as_one_run parallel

if [ "$(id -u)" -ne 0 ]; then
  echo "Parts by Slurm: not tried, starting a cluster needs root."
  exit 0
fi
if ! start_cluster; then
  echo "Parts by Slurm: not tried, the cluster of one node did not come up here."
  exit 0
fi
here=$PWD
cd "$work"
timeout 300 "$here/scripts/compare_in_parts" slurm "$work/slurm/season.toml" 3 >/dev/null
cd "$here"
same_as_one_run slurm
