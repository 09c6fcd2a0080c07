// What is made beside its real place and then renamed, so that it is there whole or not at all, whenever we are killed.
import { existsSync, readdirSync, rmSync } from 'node:fs'
import { join } from 'node:path'

/** Path of something that this process is making; its name says who makes it. */
export function draftIn(folder: string): string {
  return join(folder, `draft-${process.pid}-${Date.now()}`)
}

/** Removes what processes left that are no more. */
export function clearDrafts(folder: string): void {
  for (const name of readdirSync(folder)) {
    const maker = /^draft-(\d+)-/.exec(name)?.[1]
    if (maker === undefined || existsSync(`/proc/${maker}`)) continue
    try {
      rmSync(join(folder, name), { recursive: true, force: true })
    } catch {
      // an initdb that outlived its service may still be writing there: the next start clears it
    }
  }
}
