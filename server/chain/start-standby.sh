#!/bin/bash
# Copies the database the first time, then follows it until it is promoted.
set -euo pipefail
if [ ! -s "$PGDATA/PG_VERSION" ]; then
  pg_basebackup -h database -U traytide -D "$PGDATA" -R -X stream -d "host=database user=traytide application_name=standby"
  chmod 700 "$PGDATA"
fi
exec postgres
