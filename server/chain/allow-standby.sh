#!/bin/bash
# Once, as the database is made: the standby may follow it, by the same password.
set -euo pipefail
echo "host replication all all scram-sha-256" >> "$PGDATA/pg_hba.conf"
