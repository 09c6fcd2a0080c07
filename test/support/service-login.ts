// Statements as the service's own login may send them, for instance from psql: what a hole in the program would give away.
import type postgres from 'postgres'

/** Does some work as the service's login in one transaction of the owner's connection; commits it. */
export async function asService<T>(
  owner: postgres.Sql,
  work: (sql: postgres.TransactionSql) => Promise<T>,
): Promise<T> {
  const done = await owner.begin(async (sql) => {
    await sql`set local session authorization cordsift_service`
    return { value: await work(sql) }
  })
  return done.value
}
