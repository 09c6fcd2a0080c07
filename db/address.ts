// Where a database is and who logs in there, as text or in parts, and one way to connect to it.
import postgres from 'postgres'

export type Address = string | { host: string; port: number; user: string; password?: string; database: string }

type Options = postgres.Options<Record<string, postgres.PostgresType>>

/** Unnamed statements unless `prepare` says otherwise: a pooler in transaction mode gives each transaction another session. */
export function connectTo(address: Address, options: Options): postgres.Sql {
  const all = { prepare: false, onnotice: () => {}, ...options }
  return typeof address === 'string' ? postgres(address, all) : postgres({ ...address, ...all })
}

/** Does a piece of work over one connection that is closed after it. */
export async function withConnection<T>(address: Address, work: (sql: postgres.Sql) => Promise<T>): Promise<T> {
  const sql = connectTo(address, { max: 1, connect_timeout: 10 })
  try {
    return await work(sql)
  } finally {
    await sql.end({ timeout: 5 })
  }
}

/** The same database for another account. Hosts and parameters stay as they were written. */
export function addressFor(address: Address, user: string, password: string): Address {
  if (typeof address !== 'string') return { ...address, user, password }
  const account = `${encodeURIComponent(user)}:${encodeURIComponent(password)}`
  return address.replace(/^(\w+:\/\/)(?:[^/?]*@)?/, (_, scheme: string) => `${scheme}${account}@`)
}

/** Empty where none is written down. */
export function passwordIn(address: Address): string {
  if (typeof address !== 'string') return address.password ?? ''
  return decodeURIComponent(/^\w+:\/\/[^/?@:]*:([^/?]*)@/.exec(address)?.[1] ?? '')
}
