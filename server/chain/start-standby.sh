#!/bin/bash
# Copies the database the first time, then follows it until it is promoted; from then on one disk must do.
set -euo pipefail
if [ ! -s "$PGDATA/PG_VERSION" ]; then
  pg_basebackup -h database -U traytide -D "$PGDATA" -R -X stream -d "host=database user=traytide application_name=standby"
  echo "synchronous_standby_names = ''" >> "$PGDATA/postgresql.conf"
fi
exec postgres
