// npm run bench:worst -- SECONDS SEED: searches the questions that take most CPU, by chance and by climbing, and prints them beside the aims.
import { type AdviceQuestion, adviceTask } from '../app/advice/work-out.ts'
import { compareTask, proveTask } from '../app/advisor/tasks.ts'
import type { Task } from '../app/kit/task.ts'

const seconds = Number(process.argv[2] ?? 30)
const seed = Number(process.argv[3] ?? 1)
let state = seed

/** Where a question lies among all: twelve numbers in [0, 1), read by each kind of question in its own way. */
type Point = number[]

type Search = { name: string; aim: number; ask: (at: Point) => () => unknown; told: (at: Point) => string }

const searches: Search[] = [
  search('advice, lots to 1,000,000', 300, adviceTask, (at) => adviceAt(at, 1_000_000)),
  search('advice, lots to 10,000', 300, adviceTask, (at) => adviceAt(at, 10_000)),
  search('open page, lots to 10,000', 20, compareTask, (at) => comparisonAt(at, 10_000)),
  search('open page, lots to 1,000,000', 60, compareTask, (at) => comparisonAt(at, 1_000_000)),
  search('proof, lots to 10,000', 20, proveTask, (at) => proofAt(at, 10_000)),
  search('proof, lots to 1,000,000', 60, proveTask, (at) => proofAt(at, 1_000_000)),
]

console.log(`node ${process.version}, seed ${seed}, ${seconds} s for each kind; milliseconds of CPU of this process`)
for (const each of searches) {
  const { worst, tries } = climb(each)
  const repeated = [1, 2, 3].map(() => cpuOf(each.ask(worst)))
  console.log(
    `${each.name}: ${repeated.map((each) => each.toFixed(1)).join(', ')} (wanted ${each.aim}) after ${tries} tries\n  ${each.told(worst)}`,
  )
}

function search<In, Out>(name: string, aim: number, task: Task<In, Out>, questionAt: (at: Point) => In): Search {
  return {
    name,
    aim,
    ask: (at) => {
      const question = questionAt(at)
      return () => task.work(question)
    },
    told: (at) => JSON.stringify(questionAt(at)),
  }
}

/** A third of the tries anywhere, the others near the worst so far. */
function climb({ ask }: Search): { worst: Point; tries: number } {
  const until = Date.now() + seconds * 1000
  let worst: Point = Array.from({ length: 12 }, random)
  let most = 0
  let tries = 0
  for (; Date.now() < until; tries++) {
    const at = tries % 3 === 0 ? worst.map(random) : worst.map((x) => (random() < 0.3 ? near(x) : x))
    if (cpuOf(ask(at)) <= most) continue
    const again = Math.min(cpuOf(ask(at)), cpuOf(ask(at))) // what was the machine's, or a first time, is not the question's
    if (again <= most) continue
    most = again
    worst = at
  }
  return { worst, tries }
}

function near(x: number): number {
  const step = (random() - 0.5) * 10 ** (-3 * random())
  return Math.min(1 - 1e-9, Math.max(0, x + step))
}

function cpuOf(task: () => unknown): number {
  const before = process.cpuUsage()
  task()
  const { user, system } = process.cpuUsage(before)
  return (user + system) / 1000
}

function adviceAt(at: Point, largest: number): AdviceQuestion {
  const size = sizeAt(at, largest)
  const { tooMany, good } = numbersAt(at, size)
  return {
    size,
    terms: {
      tooMany,
      catchOf100: String(100 * riskAt(part(at, 3))),
      costTestCents: whole(part(at, 4), 1, 10_000),
      costEscapeCents: whole(part(at, 5), 1, 1_000_000),
      costReturnCents: whole(part(at, 6), 1, 1_000_000),
    },
    requirements: {
      good,
      goodRisk: riskAt(part(at, 7)),
      share: part(at, 8) < 0.2 ? 1 : part(at, 8),
      own: undefined,
      afterRejection: part(at, 9) < 0.5 ? 'return' : 'screen',
      belief: { percent: 100 * riskAt(part(at, 10)), worth: logAt(part(at, 11), 0.1, 1_000_000) },
    },
    groupSize: 30,
    critical: false,
    inSeries: true,
    tightened: undefined,
    before: undefined,
    standard: { acceptanceQualityLimit: '0.65', level: 'II', inspection: 'normal' },
    finished: [],
  }
}

function comparisonAt(at: Point, largest: number) {
  const lotSize = sizeAt(at, largest)
  const { tooMany, good } = numbersAt(at, lotSize)
  const sampleSize = whole(part(at, 4), 1, lotSize)
  return {
    lotSize,
    tooMany,
    confidence: riskAt(part(at, 3)),
    good: { nonconforming: good, risk: riskAt(part(at, 7)), demanded: part(at, 9) < 0.5 },
    today: { kind: 'percentage' as const, percent: '50', sampleSize: whole(part(at, 8), 1, lotSize) },
    own: { sampleSize, acceptanceNumber: Math.floor(part(at, 5) * sampleSize) },
    standard: undefined,
    effort: { cordsAnHour: 30, testCents: 150, escapeCents: undefined },
  }
}

function proofAt(at: Point, largest: number) {
  const lotSize = sizeAt(at, largest)
  const tested = whole(part(at, 4), 1, lotSize)
  const found = Math.floor((part(at, 1) < 0.5 ? part(at, 5) : part(at, 5) ** 8) * tested)
  const claim = whole(part(at, 6), 1, lotSize)
  return { lotSize, tested, found, confidence: 1 - riskAt(part(at, 3)) / 2, claim, taken: { kind: 'fixed' as const } }
}

/** One of the point's numbers from 0 to 1. */
function part(at: Point, index: number): number {
  return at[index] ?? 0
}

function sizeAt(at: Point, largest: number): number {
  return part(at, 0) < 0.3 ? largest : whole(part(at, 0), 2, largest)
}

/** Half of the good lots lie next to the bad ones. */
function numbersAt(at: Point, size: number): { tooMany: number; good: number } {
  const tooMany = whole(part(at, 1), 1, size)
  const x = part(at, 2)
  const good = x < 0.5 ? Math.floor(2 * x * tooMany) : tooMany - whole(2 * x - 1, 1, tooMany)
  return { tooMany, good: Math.max(0, Math.min(tooMany - 1, good)) }
}

/** From next to nothing to next to certain. */
function riskAt(x: number): number {
  return x < 0.5 ? logAt(2 * x, 1e-5, 0.5) : 1 - logAt(2 * (1 - x), 1e-5, 0.5)
}

function whole(x: number, from: number, to: number): number {
  return Math.min(to, Math.max(from, Math.round(logAt(x, from, to))))
}

function logAt(x: number, from: number, to: number): number {
  return from * (to / from) ** x
}

/** The mulberry32 generator (public domain). */
function random(): number {
  state = (state + 0x6d2b79f5) | 0
  let mixed = Math.imul(state ^ (state >>> 15), 1 | state)
  mixed = (mixed + Math.imul(mixed ^ (mixed >>> 7), 61 | mixed)) ^ mixed
  return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296
}
