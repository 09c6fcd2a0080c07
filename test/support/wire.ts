// A wire to the test's database that counts how often its user waits for an answer and then speaks again.
import { randomBytes } from 'node:crypto'
import { mkdtempSync, rmSync } from 'node:fs'
import { connect, createServer } from 'node:net'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll } from 'vitest'

type Address = { host: string; port: number; user: string; database: string }

export type Wire = {
  /** the same database by way of the wire */
  address: Address
  /** round trips of all connections together while a piece of work is done */
  trips(work: () => Promise<unknown>): Promise<number>
}

/**
 * The server is reached by its socket file, and so is the wire. It is taken down after the test file. `altered`: what
 * becomes of the user's words on their way, where a test is about what the server then says.
 */
export async function wireTo(address: Address, altered = (piece: Buffer) => piece): Promise<Wire> {
  const folder = mkdtempSync(join(tmpdir(), `cordsift-wire-${randomBytes(2).toString('hex')}-`))
  let counted = 0
  const server = createServer((user) => {
    const database = connect(join(address.host, `.s.PGSQL.${address.port}`))
    let answered = true
    user.on('data', (piece) => {
      if (answered) counted++
      answered = false
      database.write(altered(piece))
    })
    database.on('data', (piece) => {
      answered = true
      user.write(piece)
    })
    user.on('close', () => database.destroy()).on('error', () => database.destroy())
    database.on('close', () => user.destroy()).on('error', () => user.destroy())
  })
  await new Promise<void>((resolve) => server.listen(join(folder, `.s.PGSQL.${address.port}`), resolve))
  afterAll(() => {
    server.close()
    rmSync(folder, { recursive: true, force: true })
  })
  return {
    address: { ...address, host: folder },
    async trips(work) {
      const before = counted
      await work()
      return counted - before
    },
  }
}
