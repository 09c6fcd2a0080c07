// A backup as a file: compressed, for its owner alone, and there whole or not at all.
import { once } from 'node:events'
import { createWriteStream, existsSync, renameSync, rmSync, statSync } from 'node:fs'
import { finished } from 'node:stream/promises'
import { createGzip } from 'node:zlib'
import type postgres from 'postgres'
import { type Written, writeBackup } from './write.ts'

/** Writes beside the place and renames. Returns what was written and the size in bytes; throws where a file of that name is there. */
export async function backUpTo(sql: postgres.Sql, path: string, version: string): Promise<Written & { bytes: number }> {
  if (existsSync(path)) throw new Error(`${path} is there already: a backup overwrites nothing`)
  const draft = `${path}.part`
  const file = createWriteStream(draft, { mode: 0o600, flush: true })
  const packed = createGzip()
  const done = finished(packed.pipe(file))
  done.catch(() => {}) // thrown below, once nothing is written any more
  try {
    const written = await writeBackup(sql, (text) => push(packed, text, done), version)
    packed.end()
    await done
    renameSync(draft, path)
    return { ...written, bytes: statSync(path).size }
  } catch (error) {
    packed.destroy()
    file.destroy()
    rmSync(draft, { force: true })
    throw error
  }
}

/** A disk that is slower than the database holds the reading back; one that fails ends it. */
async function push(packed: ReturnType<typeof createGzip>, text: string, done: Promise<void>): Promise<void> {
  if (packed.write(text)) return
  await Promise.race([once(packed, 'drain'), done])
}
