// The compiled service as a process of its own, started for a measurement.
import { spawn } from 'node:child_process'
import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { projectRoot } from '../app/kit/root.ts'

const main = join(projectRoot, 'dist/app/main.js')

/** `milliseconds`: from its launch until it said that it is ready; `said`: everything on its console so far. */
export type Started = {
  pid: number
  address: string
  milliseconds: number
  said(): string
  stop(): Promise<unknown>
}

export async function started(folder: string): Promise<Started> {
  const begun = performance.now()
  const child = spawn(process.execPath, ['--enable-source-maps', main], {
    env: { PATH: process.env.PATH, PORT: '0', DATA_DIR: folder, LOG_LEVEL: 'warn' },
    stdio: ['ignore', 'inherit', 'pipe'],
  })
  const ended = new Promise((resolve) => child.once('exit', resolve))
  let text = ''
  const address = await new Promise<string>((resolve, reject) => {
    child.stderr.on('data', (piece: Buffer) => {
      text += piece.toString()
      const ready = /Cordsift is ready: (\S+)/.exec(text)?.[1]
      if (ready !== undefined) resolve(ready)
    })
    child.once('exit', () => reject(new Error(text)))
  })
  const milliseconds = Math.round(performance.now() - begun)
  return {
    pid: child.pid ?? 0,
    address,
    milliseconds,
    said: () => text,
    stop: () => {
      child.kill('SIGTERM')
      return ended
    },
  }
}

/** MB of the Node process alone; PostgreSQL's own processes are not in it. VmHWM: the most since the last `forgetPeak`. */
export function megabytes(pid: number, which: 'VmRSS' | 'VmHWM'): number {
  const kilobytes = Number(
    new RegExp(`^${which}:\\s+(\\d+)`, 'm').exec(readFileSync(`/proc/${pid}/status`, 'utf8'))?.[1],
  )
  return Math.round(kilobytes / 1024)
}

/** Linux alone: the process's peak begins anew at what it holds now. */
export function forgetPeak(pid: number): void {
  writeFileSync(`/proc/${pid}/clear_refs`, '5')
}

/** Processor time of processes, with what their children had that have ended: unlike seconds it hardly depends on what else runs. */
export function processorSeconds(pids: number[]): number {
  const ticks = pids.map((pid) => {
    const fields = readFileSync(`/proc/${pid}/stat`, 'utf8').split(') ')[1]?.split(' ') ?? []
    return fields.slice(11, 15).reduce((sum, each) => sum + Number(each), 0)
  })
  return ticks.reduce((sum, each) => sum + each, 0) / 100
}

/** A process and those that it started. */
export function family(pid: number): number[] {
  const children = readFileSync(`/proc/${pid}/task/${pid}/children`, 'utf8').trim()
  return [pid, ...(children === '' ? [] : children.split(' ').map(Number))]
}
