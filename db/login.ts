// The service's own login: no member of the owner, and with limits that belong to it, so that a pooler cannot drop them.
import { createHash, createHmac, pbkdf2Sync } from 'node:crypto'
import postgres from 'postgres'
import { type Address, addressFor, passwordIn, withConnection } from './address.ts'
import { underTheLock } from './lock.ts'

/** Milliseconds. The database itself ends what takes longer: postgres.js has no deadline of its own. */
export const limits = {
  statement_timeout: 20_000,
  lock_timeout: 10_000,
  idle_in_transaction_session_timeout: 30_000,
} as const

/** Logins are known to the whole server, so each database has one named after it; their rights are those of one role. */
const RIGHTS = 'cordsift_service'

/**
 * Where only the owner's address is known: the login of this database, made where it is missing. Its password follows from
 * the owner's and from a salt in the database, so every replica knows it and none keeps it. Throws what an administrator
 * is to run where the owner may make no roles or the server does not let the login in.
 */
export function ownLogin(owner: Address): Promise<Address> {
  return withConnection(owner, async (sql) => {
    const [found] = await sql<{ name: string; there: boolean; salt: string }[]>`
      select ${RIGHTS} || '_' || d.oid as name, r.oid is not null as there, s.salt
      from service_login s, pg_database d left join pg_roles r on r.rolname = ${RIGHTS} || '_' || d.oid
      where d.datname = current_database()`
    if (!found) throw new Error('The database has lost the salt of its login: restore its table service_login')
    const password = createHmac('sha256', found.salt).update(passwordIn(owner)).digest('hex')
    const login = addressFor(owner, found.name, password)
    if (found.there && (await refusalOf(login)) === undefined) return login
    await underTheLock(sql, (tx) => makeLogin(tx, found.name, verifierOf(password, found.salt)))
    const refusal = await refusalOf(login)
    if (refusal !== undefined)
      throw new Error(
        `The database does not let in the login that the service made for itself (${refusal}). ${remedy([`alter role ${found.name} login password '…'`, `grant ${RIGHTS} to ${found.name}`])}`,
      )
    return login
  })
}

/** Sees to it that the session may do what the service does, no more, and within limits; sets them where they are missing. */
export async function checkLogin(login: Address): Promise<void> {
  const seen = await look(login)
  if (!seen.serves || seen.loggedIn !== seen.worksAs)
    throw new Error(
      `The service would work in the database as ${seen.worksAs} (logged in as ${seen.loggedIn}), who may do all that its owner may. ${remedy([creation(`${RIGHTS}_login`)])}`,
    )
  if (!seen.granted)
    throw new Error(`${seen.loggedIn} lacks its rights: let an administrator run "grant ${RIGHTS} to ${seen.loggedIn}"`)
  if (seen.limited) return
  await limitOneself(login)
  if (!(await look(login)).limited)
    throw new Error(
      `Sessions of ${seen.loggedIn} have no limits, although the login carries them: let no pooler or parameter of DATABASE_URL set ${Object.keys(limits).join(', ')}`,
    )
}

/** For an owner who may make no roles: throws the statements that an administrator runs once, before anything is made. */
export async function refuseHelplessOwner(tx: postgres.TransactionSql): Promise<void> {
  const [account] = await tx<{ mayCreate: boolean; makesRoles: boolean; group: boolean; name: string }[]>`
    select has_database_privilege(current_database(), 'create') as "mayCreate",
      (select rolsuper or rolcreaterole from pg_roles where rolname = current_user) as "makesRoles",
      exists (select from pg_roles where rolname = ${RIGHTS}) as "group",
      ${RIGHTS} || '_' || (select oid from pg_database where datname = current_database()) as name`
  if (!account?.mayCreate) throw new Error('The account that migrates must own its database, and this one does not')
  if (!account.group && !account.makesRoles)
    throw new Error(`The owner may make no roles. ${remedy([`create role ${RIGHTS} nologin`, creation(account.name)])}`)
}

/** Undefined where the login is let in. Trouble with the network or the server is thrown. */
async function refusalOf(login: Address): Promise<string | undefined> {
  try {
    await withConnection(login, (sql) => sql`select 1`)
    return undefined
  } catch (error) {
    // poolers answer a login that they do not know with a breach of protocol
    if (error instanceof postgres.PostgresError && /^(28...|08P01)$/.test(error.code)) return error.message
    throw error
  }
}

/** Makes the login, or sets right one that another start or an earlier password of the owner left. */
async function makeLogin(tx: postgres.TransactionSql, name: string, verifier: string): Promise<void> {
  const there = await tx`select from pg_roles where rolname = ${name}`
  try {
    await tx.savepoint(async (sp) => {
      if (there.length > 0) await sp.unsafe(`alter role ${name} login password '${verifier}'`)
      else await sp.unsafe(`create role ${name} login password '${verifier}' in role ${RIGHTS}`)
      for (const [limit, value] of Object.entries(limits)) await sp.unsafe(`alter role ${name} set ${limit} = ${value}`)
    })
  } catch (error) {
    if (!(error instanceof postgres.PostgresError && error.code === '42501')) throw error
    const statements =
      there.length > 0 ? [`alter role ${name} login password '…'`, `grant ${RIGHTS} to ${name}`] : [creation(name)]
    throw new Error(`The owner may not make the service’s login (${error.message}). ${remedy(statements)}`, {
      cause: error,
    })
  }
}

function creation(name: string): string {
  return `create role ${name} login password '…' in role ${RIGHTS}`
}

function remedy(statements: string[]): string {
  return `Let an administrator run, with a password of their choice:\n${statements.map((one) => `  ${one};\n`).join('')}and name that login in DATABASE_URL and the owner in DATABASE_OWNER_URL`
}

/** What PostgreSQL keeps of a password (RFC 5803), so that the password itself is in no statement and no log of them. */
function verifierOf(password: string, salt: string): string {
  const rounds = 4096
  const bytes = createHash('sha256').update(salt).digest().subarray(0, 16)
  const salted = pbkdf2Sync(password, bytes, rounds, 32, 'sha256')
  const key = (name: string) => createHmac('sha256', salted).update(name).digest()
  const stored = createHash('sha256').update(key('Client Key')).digest('base64')
  return `SCRAM-SHA-256$${rounds}:${bytes.toString('base64')}$${stored}:${key('Server Key').toString('base64')}`
}

type Seen = { loggedIn: string; worksAs: string; serves: boolean; granted: boolean; limited: boolean }

function look(login: Address): Promise<Seen> {
  return withConnection(login, async (sql) => {
    const [seen] = await sql<Seen[]>`
      select session_user as "loggedIn", current_user as "worksAs", works_for_the_service() as serves,
        pg_has_role(session_user, ${RIGHTS}, 'usage') as granted,
        (select bool_and(setting::int between 1 and most::int) from pg_settings join
          jsonb_each_text(${JSON.stringify(limits)}::text::jsonb) as l(name, most) using (name)) as limited`
    if (!seen) throw new Error('The database answered nothing')
    return seen
  })
}

/** An account may set its own defaults. Sessions that a pooler opened before that would go on without them: they are ended. */
async function limitOneself(login: Address): Promise<void> {
  const settings = Object.entries(limits).map(([name, value]) => `${name}=${value}`)
  try {
    await withConnection(login, async (sql) => {
      const first = await underTheLock(sql, async (tx) => {
        const carried = await tx`select from pg_roles where rolname = session_user and rolconfig @> ${settings}`
        if (carried.length > 0) return false
        for (const [limit, value] of Object.entries(limits))
          await tx.unsafe(`alter role current_user set ${limit} = ${value}`)
        return true
      })
      await sql`select pg_terminate_backend(pid) from pg_stat_activity where usename = session_user
        and datname = current_database() and (pid = pg_backend_pid() or (${first} and state = 'idle'))`
    })
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : undefined
    if (code !== '57P01' && code !== 'CONNECTION_CLOSED') throw error // our own session was the last to end
  }
}
