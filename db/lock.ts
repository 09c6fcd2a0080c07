// One service at a time changes what all of them stand on: its schema and its login.
import postgres from 'postgres'

const LOCK = 7_306_002
/** Milliseconds that a start waits for another, or for a table that an older service still uses. */
const PATIENCE = 60_000

/**
 * Runs `work` in a transaction that holds the lock. The lock goes with the transaction, so no pooler keeps it, and the
 * database ends a transaction whose process stands still. Throws a sentence when the turn does not come in time.
 */
export async function underTheLock<T>(
  sql: postgres.Sql,
  work: (tx: postgres.TransactionSql) => Promise<T>,
  patience = PATIENCE,
): Promise<T> {
  const begun = sql.begin(async (tx) => {
    await tx`select set_config('lock_timeout', ${String(patience)}, true),
      set_config('idle_in_transaction_session_timeout', ${String(PATIENCE)}, true)`
    await tx`select pg_advisory_xact_lock(${LOCK})`
    return { made: await work(tx) }
  })
  return begun.then(({ made }) => made, explain(patience))
}

function explain(patience: number) {
  return (error: unknown): never => {
    if (error instanceof postgres.PostgresError && error.code === '55P03')
      throw new Error(
        `The database was kept locked for ${patience / 1000} s: wait for the other Cordsift that is starting; if there is none, pg_locks shows the session that holds advisory lock ${LOCK} or one of the tables, and pg_terminate_backend ends it`,
        { cause: error },
      )
    throw error
  }
}
