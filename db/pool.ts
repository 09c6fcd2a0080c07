// A pool whose connections can all be thrown away and opened anew, under one and the same `db`.
import type postgres from 'postgres'
import { type Db, databaseOver } from './client.ts'

export type Pool = {
  db: Db
  /** Work at hand has five seconds to finish on the old connections and fails then; what comes from now on has new ones. */
  renew(): void
  close(): Promise<void>
}

const FINISH = { timeout: 5 }

/** `open` makes a client; connections are made when work needs them. */
export function renewablePool(open: () => postgres.Sql): Pool {
  let sql = open()
  let current = databaseOver(sql)
  let ending: Promise<void> | undefined
  let wanted = false

  function renew(): void {
    wanted = ending !== undefined // one at a time, so that old connections do not pile up
    if (wanted) return
    ending = sql.end(FINISH).then(() => {
      ending = undefined
      if (wanted) renew()
    })
    sql = open()
    current = databaseOver(sql)
  }

  return {
    db: new Proxy(current, { get: (_first, name) => Reflect.get(current, name) }),
    renew,
    close: () => sql.end(FINISH),
  }
}
