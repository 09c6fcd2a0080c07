// Statements of the bench, put into words once: wording one anew at every cord took drizzle longer than PostgreSQL took to plan it.
import { type Placeholder, sql } from 'drizzle-orm'
import { PostgresJsSession } from 'drizzle-orm/postgres-js'
import postgres from 'postgres'
import { type Db, databaseOver, type Tx } from './client.ts'

type Values<Name extends string> = Record<Name, unknown>
type Worded<R> = { execute(values: Record<string, unknown>): Promise<R> }

/**
 * A statement that differs in nothing but the values of these names. It is put into words when it is first sent, and sent over whatever
 * connection or transaction comes with the values; over a direct connection the database keeps its plan under the name.
 */
export function statement<const Name extends string, R>(
  name: string,
  names: readonly Name[],
  word: (db: Db, values: { [each in Name]: Placeholder }) => { prepare(name: string): Worded<R> },
): (db: Db | Tx, values: Values<Name>) => Promise<R> {
  let worded: Worded<R> | undefined
  return (db, values) => {
    worded ??= word(wording, placeholders(names)).prepare(name)
    sender = clientOf(db)
    const sent = worded.execute(values)
    if (taken()) throw new Error(`The statement ${name} was not sent at once`)
    return sent
  }
}

/** Whose turn it is: drizzle hands a statement over before it waits for anything, and who comes is served before the next one asks. */
let sender: postgres.Sql | undefined

/** A client without a connection, which hands on what it is given. */
const relay = Object.assign(postgres({ max: 1 }), {
  unsafe: (...given: Parameters<postgres.Sql['unsafe']>) => {
    const client = taken()
    if (!client) throw new Error('A statement came from nobody')
    return client.unsafe(...given)
  },
})

const wording = databaseOver(relay)

function taken(): postgres.Sql | undefined {
  const client = sender
  sender = undefined
  return client
}

function placeholders<Name extends string>(names: readonly Name[]): { [each in Name]: Placeholder } {
  const entries = names.map((name) => [name, sql.placeholder(name)])
  return Object.fromEntries(entries)
}

function clientOf(db: Db | Tx): postgres.Sql {
  const { session } = db._
  if (!(session instanceof PostgresJsSession)) throw new Error('The database is not reached by postgres.js')
  return session.client
}
