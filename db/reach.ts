// Work on the database from beside the service, as the owner of its tables: for the commands of whoever keeps it.
import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { type Address, connectTo } from './address.ts'
import type { DatabasePlace } from './connect.ts'
import { ownFolder } from './embedded/account.ts'
import { SUPERUSER } from './embedded/cluster.ts'
import { PORT, socketFolderOf } from './embedded/server.ts'
import { startEmbedded } from './embedded/start.ts'

/**
 * Runs `work` with the owner's address. The embedded server is used where it runs, and otherwise started for as long as the
 * work takes. Throws a sentence for the console where the folder holds no database and `make` is false.
 */
export async function reachOwner<T>(
  place: DatabasePlace,
  { make }: { make: boolean },
  work: (owner: Address) => Promise<T>,
): Promise<T> {
  if ('url' in place) return work(place.owner ?? place.url)
  if (!make && !existsSync(join(place.folder, 'cluster/PG_VERSION')))
    throw new Error(
      `There is no database in ${place.folder}: name its folder in DATA_DIR, or its address in DATABASE_URL`,
    )
  const running = await serverIn(ownFolder(place.folder))
  if (running) return work(running)
  const server = await startEmbedded(place.folder)
  try {
    return await work(server.address)
  } finally {
    await server.stop()
  }
}

/** Undefined where no server answers in this folder. */
async function serverIn(folder: string): Promise<Address | undefined> {
  const address = { host: socketFolderOf(folder), port: PORT, user: SUPERUSER, database: SUPERUSER }
  const sql = connectTo(address, { max: 1, connect_timeout: 2 })
  try {
    await sql`select 1`
    return address
  } catch {
    return undefined // nobody is there, or it is just ending: a server of our own waits for that
  } finally {
    await sql.end({ timeout: 1 })
  }
}
