// Runs R's side of the comparison, where R is installed.
import { spawnSync } from 'node:child_process'
import { readFileSync } from 'node:fs'
import { join } from 'node:path'
import { projectRoot } from '../app/kit/root.ts'

export type Peers = { tasks: Map<string, { milliseconds: number; answer: string }>; curve: Float64Array }

/** What R took for each task and answered; undefined where there is no Rscript. Throws when R fails. */
export function askPeers(curveFile: string): Peers | undefined {
  const script = join(projectRoot, 'bench/peers.R')
  const run = spawnSync('Rscript', ['--vanilla', script, curveFile], { encoding: 'utf8' })
  if (run.error && 'code' in run.error && run.error.code === 'ENOENT') return undefined
  if (run.error || run.status !== 0) throw new Error(`R failed: ${run.error?.message ?? run.stderr}`)
  const tasks = new Map<string, { milliseconds: number; answer: string }>()
  for (const line of run.stdout.trim().split('\n')) {
    const [name = '', seconds = '', answer = ''] = line.split('\t')
    tasks.set(name, { milliseconds: Number(seconds) * 1000, answer })
  }
  return { tasks, curve: new Float64Array(new Uint8Array(readFileSync(curveFile)).buffer) }
}
