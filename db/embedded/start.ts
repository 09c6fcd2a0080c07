// Starts and stops the PostgreSQL that ships with the service: a Unix socket only, fsync on, never as root.
import { randomBytes } from 'node:crypto'
import { join } from 'node:path'
import { setTimeout as sleep } from 'node:timers/promises'
import type postgres from 'postgres'
import { ownFolder } from './account.ts'
import { binaries } from './binaries.ts'
import { readyCluster, SUPERUSER } from './cluster.ts'
import { clearLeftovers, endServer, serverOf } from './processes.ts'
import { launch, meet, PORT, socketFolderOf, socketIn } from './server.ts'

export type EmbeddedServer = {
  address: { host: string; port: number; user: string; database: string }
  stop(): Promise<void>
}

type Troubles = {
  /** the server died under us and was started again */
  onRestart?: () => void
  /** the server died and a whole attempt to start it failed; the next one follows, until one succeeds */
  onStillDown?: (error: Error) => void
}

type Cluster = { bin: string; folder: string; data: string; socketFolder: string; tag: string }

const PATIENCE = 60_000
/** Each takes a third of a second or more: what ends as soon as it is launched will not do better later. */
const LAUNCHES = 20
/** Milliseconds between attempts to bring back a server that died under us. */
const PAUSE = 1000
/** A strange server may be one that its service is about to claim, or that its guard is closing. */
const GRACE = 3000

/**
 * Runs the cluster below `folder`, which is made at the first use. Survives kill -9 of this process or of PostgreSQL at
 * any moment, a stale pid file, root, and install scripts that npm did not run. Throws, with a sentence for the console,
 * while another service holds the folder, for data of another major version, and where the folder cannot be used.
 */
export async function startEmbedded(folder: string, troubles: Troubles = {}): Promise<EmbeddedServer> {
  const own = ownFolder(folder)
  const bin = binaries(own)
  const data = join(own, 'cluster')
  const tag = `cordsift-${process.pid}-${randomBytes(4).toString('hex')}`
  const cluster = { bin, folder: own, data, socketFolder: socketFolderOf(own), tag }
  readyCluster(bin, own, data)

  let stopping = false
  let claim = await claimServer(cluster, () => void restart())
  async function restart(): Promise<void> {
    for (await claim.end({ timeout: 0 }); !stopping; await sleep(PAUSE)) {
      try {
        claim = await claimServer(cluster, () => void restart())
        if (stopping) await claim.end()
        else troubles.onRestart?.()
        return
      } catch (error) {
        troubles.onStillDown?.(error instanceof Error ? error : new Error(String(error)))
      }
    }
  }
  return {
    address: { host: cluster.socketFolder, port: PORT, user: SUPERUSER, database: SUPERUSER },
    async stop() {
      stopping = true
      await claim.end({ timeout: 5 })
      await endServer(data)
    },
  }
}

/** Launches until a server of our own answers, then holds it. A server that says it is starting is waited for without end. */
async function claimServer(cluster: Cluster, onLost: () => void): Promise<postgres.Sql> {
  let heard = Date.now()
  const tries = { launched: 0, launches: 0 }
  let strange = 0
  for (; Date.now() - heard < PATIENCE; await sleep(20)) {
    if (serverOf(cluster.data) === undefined) {
      strange = 0
      if (launchWhenDue(cluster, tries)) continue
      break
    }
    const met = await meet(cluster.socketFolder, cluster.tag, onLost)
    if (met.kind === 'ours') return met.claim
    if (met.kind === 'starting') heard = Date.now()
    if (met.kind === 'starting' || met.kind === 'silent') continue
    strange ||= Date.now()
    if (Date.now() - strange < GRACE) continue
    if (met.kind === 'strange' && met.holder !== undefined) throw new Error(inUse(cluster.folder, met.holder))
    await endServer(cluster.data) // nobody's, or one that does not get done with closing; then we start our own
  }
  throw new Error(`PostgreSQL does not start: ${join(cluster.folder, 'postgres.log')} says why`)
}

/** Launches, but for a while after the last time; false after as many times as make sense. */
function launchWhenDue(cluster: Cluster, tries: { launched: number; launches: number }): boolean {
  if (Date.now() - tries.launched < 300) return true
  if (tries.launches++ === LAUNCHES) return false
  clearLeftovers(cluster.data, socketIn(cluster.socketFolder))
  tries.launched = Date.now()
  launch(cluster)
  return true
}

function inUse(folder: string, holder: string): string {
  const process = /^cordsift-(\d+)-/.exec(holder)?.[1]
  return `${folder} is in use by another Cordsift${process === undefined ? '' : ` (process ${process})`}: stop that one, or name another DATA_DIR`
}
