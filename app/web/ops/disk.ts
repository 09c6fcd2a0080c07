// Whether the database's disk is full: noticed when a change is refused for it, and asked again until there is room.
import { sql } from 'drizzle-orm'
import type { Db } from '../../../db/client.ts'
import { faultOf } from '../../kit/fault.ts'

export type Disk = {
  /** a change was refused because the disk is full */
  refused(): void
  /** Looks again only after such a refusal: a full disk still takes small entries where its files have room. */
  isFull(db: Db): Promise<boolean>
}

/** `look` tells whether there is room; only a test has another way to look. */
export function watchDisk(look = hasRoom): Disk {
  let full = false
  return {
    refused() {
      full = true
    },
    async isFull(db) {
      if (full) full = !(await look(db))
      return full
    },
  }
}

/** Sorts more than fits the memory that it allows itself, so that the database has to put some three megabytes on its disk. */
async function hasRoom(db: Db): Promise<boolean> {
  try {
    await db.transaction(async (tx) => {
      await tx.execute(sql`set local work_mem = '64kB'`)
      await tx.execute(
        sql`select count(*) from (select g from generate_series(1, 100000) g order by -g offset 0) sorted`,
      )
    })
    return true
  } catch (error) {
    if (faultOf(error).kind === 'full') return false
    throw error
  }
}
