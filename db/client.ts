// The one way to the database: postgres.js under drizzle, working as the service's own role.
import { drizzle, type PostgresJsDatabase } from 'drizzle-orm/postgres-js'
import type postgres from 'postgres'

export type Db = PostgresJsDatabase
/** What a verb's transaction hands on. A function that takes it cannot outlive the change it belongs to. */
export type Tx = Parameters<Parameters<Db['transaction']>[0]>[0]

/** Drizzle over an open connection pool, with columns named as in the schema. */
export function databaseOver(sql: postgres.Sql): Db {
  return drizzle(sql, { casing: 'snake_case' })
}

/** Reads over one connection, so that what is asked at the same time goes in one trip. */
export function readTogether<T>(db: Db, work: (tx: Tx) => Promise<T>): Promise<T> {
  return db.transaction(work)
}
