// npm run bench:statistics: the engine beside R's own functions, in one run, and the engine alone where R has nothing alike.
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { optimalPlan } from '../app/statistics/economics/optimal-plan.ts'
import { acceptanceCurveOfLot } from '../app/statistics/plans/curve.ts'
import { designSingleForLot } from '../app/statistics/plans/single.ts'
import { designZeroForLot } from '../app/statistics/plans/zero.ts'
import { askPeers } from './peers.ts'

const folder = mkdtempSync(join(tmpdir(), 'cordsift-bench-'))
const peers = askPeers(join(folder, 'curve.bin'))
if (!peers)
  console.log('Rscript is not here, so there is nothing to compare with (Debian: apt-get install r-base-core).')

const lots = [
  [10_000, 100, 500],
  [10_000, 100, 250],
  [10_000, 100, 200],
  [500, 5, 25],
  [100_000, 500, 1500],
] as const
for (const [lotSize, good, bad] of lots) {
  const design = () => designFor(lotSize, good, bad)
  const { sampleSize, acceptanceNumber } = design()
  beside(`design ${lotSize} ${good} ${bad}`, design, 15, `${sampleSize},${acceptanceNumber}`)
}

const plan = { stages: [{ sampleSize: 800, acceptanceNumber: 12, rejectionNumber: 13 }] }
beside('curve', () => acceptanceCurveOfLot(plan, 1_000_000), 50)
if (peers)
  console.log(`  largest difference from R's curve: ${differenceFrom(peers.curve).toExponential(1)} (wanted: 1e-11)`)

const prior = { a: 0.5, b: 24.5 }
const costs = { test: 1.2, escape: 60, rejection: 0 }
alone('optimal plan of a lot of 10,000', 50, () =>
  optimalPlan({ lotSize: 10_000, prior, costs, afterRejection: 'screen' }),
)
alone('single plan for a lot of 10,000,000', 20, () => designFor(10_000_000, 50_000, 150_000))
alone('single plan for a lot of 10,000,000, close qualities', 20, () => designFor(10_000_000, 100_000, 120_000))
alone('zero plan for a lot of 10,000,000', 20, () =>
  designZeroForLot({ lotSize: 10_000_000, nonconforming: 1000, risk: 0.05 }),
)
rmSync(folder, { recursive: true })

function designFor(lotSize: number, good: number, bad: number) {
  return designSingleForLot({
    lotSize,
    producer: { nonconforming: good, risk: 0.05 },
    consumer: { nonconforming: bad, risk: 0.1 },
  })
}

/** One task beside its peer: both times, how many times faster, and whether both answer alike. */
function beside(name: string, task: () => unknown, wanted: number, answer?: string): void {
  const own = millisecondsOf(task)
  const peer = peers?.tasks.get(name)
  if (!peer) {
    console.log(`${name}: ${own.toPrecision(3)} ms`)
    return
  }
  const ratio = peer.milliseconds / own
  const alike = answer === undefined || answer === peer.answer ? '' : `; ANSWERS DIFFER: ${answer}, R ${peer.answer}`
  const times = `${own.toPrecision(3)} ms, R ${peer.milliseconds.toPrecision(3)} ms`
  console.log(`${name}: ${times}: ${ratio.toFixed(0)} times as fast (wanted: ${wanted})${alike}`)
}

function alone(name: string, wanted: number, task: () => unknown): void {
  console.log(`${name}: ${millisecondsOf(task).toPrecision(3)} ms (wanted: at most ${wanted})`)
}

/** Milliseconds of one run, from the fastest of nine batches of at least 20 ms each once the compiler has had 300 ms. */
function millisecondsOf(task: () => unknown): number {
  for (let spent = 0; spent < 300; ) spent += batch(task, 1)
  let runs = 1
  while (batch(task, runs) < 20) runs *= 2
  return Math.min(...Array.from({ length: 9 }, () => batch(task, runs) / runs))
}

function batch(task: () => unknown, runs: number): number {
  const begun = performance.now()
  for (let run = 0; run < runs; run++) task()
  return performance.now() - begun
}

/** Largest relative difference of both curves where R's is above 1e-290. */
function differenceFrom(other: Float64Array): number {
  return acceptanceCurveOfLot(plan, 1_000_000).reduce((largest, value, D) => {
    const peer = other[D] ?? Number.NaN
    return peer > 1e-290 ? Math.max(largest, Math.abs(value / peer - 1)) : largest
  }, 0)
}
