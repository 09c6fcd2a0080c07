// Statements of the bench, put into words once: wording one anew at every cord took drizzle longer than PostgreSQL took to plan it.
import { type Placeholder, sql } from 'drizzle-orm'
import { PostgresJsSession } from 'drizzle-orm/postgres-js'
import postgres from 'postgres'
import { type Db, databaseOver, type Tx } from './client.ts'

type Worded<R> = { execute(values: Record<string, unknown>): Promise<R> }
type Placeholders<V> = { [name in keyof V]: Placeholder }

/** Sends the statement with these values over this connection or transaction. */
export type Sending<V, R> = (db: Db | Tx, values: V) => Promise<R>

/**
 * A statement that differs in nothing but the values of these names. It is put into words when it is first sent, and sent over whatever
 * connection or transaction comes with the values; over a direct connection the database keeps its plan. `name` is what an error
 * calls it. Null goes to columns of numbers and texts as it is; of JSON it would be JSON's null, and of dates it is refused.
 */
export function statement<V extends Record<string, unknown>>(name: string, names: readonly (keyof V & string)[]) {
  return {
    worded<R>(word: (db: Db, values: Placeholders<V>) => { prepare(name: string): Worded<R> }): Sending<V, R> {
      let worded: Worded<R> | undefined
      return async (db, values) => {
        worded ??= word(wording, placeholders<V>(names)).prepare(name)
        sender = clientOf(db)
        const sent = worded.execute(values)
        if (!taken()) return sent
        await sent // where it was not sent because a value cannot be written, that is what is told
        throw new Error(`The statement ${name} was not sent at once`)
      }
    },
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

function placeholders<V>(names: readonly (keyof V & string)[]): Placeholders<V>
function placeholders(names: readonly string[]) {
  return Object.fromEntries(names.map((name) => [name, sql.placeholder(name)]))
}

function clientOf(db: Db | Tx): postgres.Sql {
  const { session } = db._
  if (!(session instanceof PostgresJsSession)) throw new Error('The database is not reached by postgres.js')
  return session.client
}
