#!/bin/bash
# Once, as the database is made: a standby may follow it, and nothing is acknowledged that is not on its disk too.
set -euo pipefail
echo "host replication all all scram-sha-256" >> "$PGDATA/pg_hba.conf"
printf "synchronous_standby_names = 'standby'\nwal_keep_size = 1GB\n" >> "$PGDATA/postgresql.conf"
