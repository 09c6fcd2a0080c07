// Launches the embedded PostgreSQL under a guard that outlives us, and claims it for this process.
import { spawn } from 'node:child_process'
import { createHash } from 'node:crypto'
import { closeSync, openSync } from 'node:fs'
import { Socket } from 'node:net'
import { join } from 'node:path'
import postgres from 'postgres'
import { account, closedFolder } from './account.ts'
import { environment, SUPERUSER } from './cluster.ts'
import { ENDINGS } from './processes.ts'

/** Only a part of the socket's file name: the server listens on no network. */
export const PORT = 5432

/** Path of the socket in its folder, as PostgreSQL names it. */
export function socketIn(socketFolder: string): string {
  return join(socketFolder, `.s.PGSQL.${PORT}`)
}

const SERVICE_LOCK = 7_306_001

/**
 * The shell reads a pipe of ours. When we end, however we end, it meets the pipe's end and has PostgreSQL end as
 * `ENDINGS` says. It sleeps second by second, so that nothing of it is left when PostgreSQL is gone.
 */
const guard = `
trap "" INT TERM HUP
exec 3<&0
"$@" 3<&- </dev/null &
server=$!
(
read -r line
for ending in ${ENDINGS.map(({ signal, seconds }) => `${signal}:${seconds}`).join(' ')}; do
  kill -\${ending%:*} $server
  left=\${ending#*:}
  while [ $left -gt 0 ]; do sleep 1; left=$((left - 1)); done
done
) <&3 2>/dev/null &
reader=$!
exec 3<&-
wait $server
kill -9 $reader
`

type Launch = { bin: string; folder: string; data: string; socketFolder: string; tag: string }

/** Starts the server detached, so that Ctrl-C in a terminal reaches us alone and requests can be finished first. */
export function launch({ bin, folder, data, socketFolder, tag }: Launch): void {
  const log = openSync(join(folder, 'postgres.log'), 'a', 0o600)
  const settings = {
    cluster_name: tag,
    listen_addresses: '',
    unix_socket_permissions: '0700',
    shared_buffers: '128MB',
    max_connections: '60',
  }
  const server = [join(bin, 'postgres'), '-D', data, '-p', String(PORT), '-k', socketFolder]
  for (const [name, value] of Object.entries(settings)) server.push('-c', `${name}=${value}`)
  const child = spawn('/bin/sh', ['-c', guard, 'guard', ...server], {
    ...account,
    cwd: folder,
    detached: true,
    stdio: ['pipe', log, log],
    env: environment,
  })
  child.on('error', () => {}) // a shell that cannot start shows as a server that never answers, and the start says so
  closeSync(log)
  child.unref()
  if (child.stdin instanceof Socket) child.stdin.unref()
}

/** What stands at the socket. `starting` and `closing` are what the server itself says it does. `ours` carries the claim: a session lock on a connection that lives as long as this process. */
export type Met =
  | { kind: 'silent' | 'starting' | 'closing' }
  | { kind: 'strange'; holder: string | undefined }
  | { kind: 'ours'; claim: postgres.Sql }

/** Asks the server that answers whether it is the one we launched, and claims it. Never adopts another's: it may be closing. */
export async function meet(socketFolder: string, tag: string, onLost: () => void): Promise<Met> {
  const claim = postgres({
    host: socketFolder,
    port: PORT,
    user: SUPERUSER,
    database: SUPERUSER,
    max: 1,
    connect_timeout: 2,
    idle_timeout: 0,
    max_lifetime: null,
    onnotice: () => {},
    onclose: () => claimed && onLost(),
    connection: { application_name: tag },
  })
  let claimed = false
  try {
    const [row] = await claim<{ ours: boolean; holder: string | null }[]>`
      select current_setting('cluster_name') = ${tag} as ours,
        (select max(a.application_name) from pg_locks l join pg_stat_activity a using (pid)
         where l.locktype = 'advisory' and l.objid = ${SERVICE_LOCK}) as holder`
    if (row?.ours) {
      await claim`select pg_advisory_lock(${SERVICE_LOCK})`
      claimed = true
      return { kind: 'ours', claim }
    }
    await claim.end({ timeout: 1 })
    return { kind: 'strange', holder: row?.holder ?? undefined }
  } catch (error) {
    await claim.end({ timeout: 1 })
    return { kind: doing(error) }
  }
}

/** PostgreSQL says by one code, cannot_connect_now, that it starts, recovers or closes; `LC_ALL` keeps its words the same. */
function doing(error: unknown): 'silent' | 'starting' | 'closing' {
  if (!(error instanceof postgres.PostgresError) || error.code !== '57P03') return 'silent'
  return error.message.includes('shutting down') ? 'closing' : 'starting'
}

/**
 * Below the data where the path fits into the 107 bytes of a socket's address and PostgreSQL can read it from a list
 * (a comma would end it), else a closed folder in /tmp named after the data.
 */
export function socketFolderOf(folder: string): string {
  const near = join(folder, 'socket')
  if (Buffer.byteLength(near) < 88 && !/[,"]/.test(near)) return closedFolder(near)
  return closedFolder(`/tmp/cordsift-${createHash('sha256').update(folder).digest('hex').slice(0, 16)}`)
}
