// The evidence of a decision, format 2: a head that is stored with the decision, and rows that stay where they were recorded.
import { z } from 'zod'
import { planKind } from '../../../db/schema/lot-words.ts'
import { cordRulings, resultKinds } from '../../terms/cord.ts'
import { undecidedRules } from '../../terms/item.ts'

/** 2 adds the drawn cords that could not be had, and their kinds; whatever 1 has is in it too. */
export const VERSION = 2
const versions = z.union([z.literal(1), z.literal(VERSION)])

/** Columns of a row, in the order in which its line has them. */
export const columns = [
  'position',
  'purpose',
  'pick',
  'standsInFor',
  'counts',
  'kind',
  'state',
  'nonconforming',
  'crosstalkMargin',
  'returnLossMargin',
  'wireMap',
  'visual',
  'note',
  'carton',
  'spool',
  'testerSerial',
  'entry',
  'recordedBy',
  'recordedAt',
] as const

export type EvidenceColumn = (typeof columns)[number]

const optional = <T extends z.ZodType>(cell: T) => cell.nullable().transform((value) => value ?? undefined)
const text = optional(z.string())
const inspection = optional(z.enum(['in-order', 'at-fault']))

const number = z.string().transform(Number)
const flag = z.enum(['true', 'false']).transform((said) => said === 'true')

/** Every cell of a line is a text or null: margins keep the zeros that the tester gave, and lines are made fastest so. */
const cells = {
  position: number,
  purpose: z.enum(['sample', 'stand-in', 'rest']),
  pick: optional(number),
  standsInFor: optional(number),
  counts: flag,
  kind: z.enum(resultKinds),
  state: z.enum(['conforms', 'marginal', 'does-not-conform', 'not-tested']),
  nonconforming: flag,
  crosstalkMargin: text,
  returnLossMargin: text,
  wireMap: inspection,
  visual: inspection,
  note: text,
  carton: text,
  spool: text,
  testerSerial: text,
  entry: number,
  /** number of the person; the head has the names */
  recordedBy: number,
  recordedAt: z.coerce.date(),
} satisfies Record<EvidenceColumn, z.ZodType>

const row = z.object(cells)
export type EvidenceRow = z.infer<typeof row>

const signed = { by: z.string(), at: z.coerce.date() }
const verdict = z.enum(['accept', 'reject'])
const stage = z.object({ sampleSize: z.number(), acceptanceNumber: z.number(), rejectionNumber: z.number() })

/** Drawn cords that could not be had when it was signed. */
const cord = { position: z.number(), ...signed }
const reported = { kind: z.enum(resultKinds), note: z.string() }
const undecided = z.object({ ...cord, ...reported, stage: z.number(), pick: z.number() })
const ruling = z.object({
  ...cord,
  ...reported,
  ruling: z.enum(cordRulings),
  reason: z.string(),
  known: z.object({ recorded: z.number(), found: z.number(), undecided: z.number() }),
  standIn: z.number().optional(),
})
const recount = z.object({ ...cord, size: z.number(), reason: z.string(), standIn: z.number().optional() })
const bothAnswers = z.object({
  confidence: z.number(),
  undecided: z.number(),
  replaced: z.number(),
  ifConforming: z.number().optional(),
  ifNonconforming: z.number().optional(),
})

const head = z.object({
  version: versions,
  method: z.object({ judging: z.string(), drawing: z.string(), bounds: z.string(), rows: z.string() }),
  lot: z.object({
    id: z.number(),
    supplier: z.string(),
    item: z.string(),
    lengthMetres: z.string(),
    announcedSize: z.number(),
    size: z.number(),
    /** cords by the latest recount after the draw; none where there was none */
    recountedSize: z.number().optional(),
    cartons: z.number(),
    cordsInCarton: z.number(),
    productionMark: z.string(),
    purchaseOrder: z.string(),
    /** the lot that it was before it went back, and what the supplier declared to have sorted; or the lot in whose place it came */
    resubmissionOf: z.number().optional(),
    declaredSorting: z.string().optional(),
    replacementOf: z.number().optional(),
  }),
  terms: z.object({
    categoryClaimed: z.string(),
    cordLimit: z.string(),
    marginalPolicy: z.enum(['strict', 'lenient']),
    crosstalkAccuracy: z.string(),
    returnLossAccuracy: z.string(),
    tooMany: z.number(),
    catchOf100: z.string(),
    costTestCents: z.number(),
    costEscapeCents: z.number(),
    costReturnCents: z.number(),
    afterRejection: z.enum(['return', 'screen']).optional(),
    clause: z.object({ number: z.string(), text: z.string() }).optional(),
    undecidedCounts: z.enum(undecidedRules).optional(),
  }),
  plan: z.object({
    kind: z.enum(planKind.enumValues),
    sampleSize: z.number(),
    acceptanceNumber: z.number(),
    stages: z.array(stage),
    groupSize: z.number().optional(),
    /** why a plan was taken that lets more through than the item demands; documents before it was asked for have none */
    weakerReason: z.string().optional(),
    weakerByClause: z.boolean().optional(),
    chosenBy: z.string().optional(),
    ...signed,
  }),
  draw: z.object({ seed: z.string(), method: z.string(), standIns: z.number(), ...signed }),
  counts: z.object({
    sampleRecorded: z.number(),
    sampleNonconforming: z.number(),
    restRecorded: z.number(),
    restNonconforming: z.number(),
    toDo: z.number(),
  }),
  condition: z.discriminatedUnion('kind', [
    z.object({ kind: z.literal('kept') }),
    z.object({ kind: z.literal('broken'), standIns: z.number(), notTested: z.number() }),
  ]),
  verdict: verdict.optional(),
  proof: z.object({
    confidence: z.number(),
    lotSize: z.number(),
    recorded: z.number(),
    found: z.number(),
    leftOfSample: z.number(),
    stage: z.number().optional(),
    untested: z.number(),
    upperInLot: z.number(),
    lowerInLot: z.number(),
    upperInUntested: z.number(),
    expectedInUntested: z.number().optional(),
  }),
  notHad: z.object({ undecided: z.array(undecided), rulings: z.array(ruling), recounts: z.array(recount) }).optional(),
  /** upper bounds for both answers of cords that are undecided, or in whose place a reserve counts */
  bothAnswers: bothAnswers.optional(),
  /** who recorded, by number: rows name people so */
  people: z.array(z.object({ id: z.number(), name: z.string() })),
  /** positions of every cord that does not conform, such as 3,17-19,402: half a million of them are below 4 MB */
  nonconforming: z.string(),
  rows: z.object({
    /** the lot's version that was signed: entries of later versions are not in it */
    lotVersion: z.number(),
    columns: z.array(z.enum(columns)),
    count: z.number(),
    sha256: z.string(),
  }),
})

export type Evidence = z.infer<typeof head>
/** What is stored: moments as the text that JSON makes of them. */
export type EvidenceDocument = z.input<typeof head>

const versioned = z.object({ version: z.number() })

/** The stored document; undefined where it is of a format that this program does not know. */
export function evidenceIn(json: unknown): Evidence | undefined {
  if (versioned.parse(json).version > VERSION) return undefined
  return head.parse(json)
}

/** Rows from their lines, cell by cell under the names that the document gives its columns. */
export function rowsIn(lines: string, names: readonly EvidenceColumn[]): EvidenceRow[] {
  return lines
    .split('\n')
    .filter((line) => line !== '')
    .map((line) => {
      const items = z.array(z.unknown()).length(names.length).parse(JSON.parse(line))
      return row.parse(Object.fromEntries(names.map((name, at) => [name, items[at]])))
    })
}

/** The line that stands before those of the rows. */
export function headingOf(names: readonly EvidenceColumn[]): string {
  return `${JSON.stringify(names)}\n`
}
