// Everything a decision rests on, as it stood when it was signed: inputs, plan, draw, numbers, method and every result.
import { and, eq, type SQL, sql } from 'drizzle-orm'
import { z } from 'zod'
import type { Db, Tx } from '../../../db/client.ts'
import { decisions, planKind } from '../../../db/schema/lots.ts'
import { Refusal } from '../../kit/refusal.ts'
import { storyOf } from '../show.ts'
import { method } from './method.ts'

/** Columns of a result, in the order of the snapshot's rows: names written once, not once a cord. */
const columns = [
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

const text = z.string().nullable()
const inspection = z.enum(['in-order', 'at-fault']).nullable()
/** Margins are text: JSON numbers would drop the zeros that the tester gave. */
const row = z.tuple([
  z.number(),
  z.enum(['sample', 'stand-in', 'rest']),
  z.number().nullable(),
  z.number().nullable(),
  z.boolean(),
  z.enum(['tested', 'missing', 'untestable']),
  z.enum(['conforms', 'marginal', 'does-not-conform', 'not-tested']),
  z.boolean(),
  text,
  text,
  inspection,
  inspection,
  text,
  text,
  text,
  text,
  z.number(),
  z.string(),
  z.coerce.date(),
])

const signed = { by: z.string(), at: z.coerce.date() }
const verdict = z.enum(['accept', 'reject'])
const stage = z.object({ sampleSize: z.number(), acceptanceNumber: z.number(), rejectionNumber: z.number() })
const evidence = z.object({
  method: z.object({ judging: z.string(), drawing: z.string(), bounds: z.string() }),
  lot: z.object({
    id: z.number(),
    supplier: z.string(),
    item: z.string(),
    lengthMetres: z.string(),
    announcedSize: z.number(),
    size: z.number(),
    cartons: z.number(),
    cordsInCarton: z.number(),
    productionMark: z.string(),
    purchaseOrder: z.string(),
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
  }),
  plan: z.object({
    kind: z.enum(planKind.enumValues),
    sampleSize: z.number(),
    acceptanceNumber: z.number(),
    /** snapshots from before plans had stages say only what one sample needs */
    stages: z.array(stage).default([]),
    ...signed,
  }),
  draw: z.object({ seed: z.string(), method: z.string(), standIns: z.number(), ...signed }),
  progress: z.object({
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
})
const kept = evidence.extend({ results: z.object({ columns: z.array(z.enum(columns)), rows: z.array(row) }) })

export type EvidenceResult = ReturnType<typeof resultIn>
export type Evidence = z.infer<typeof evidence> & { results: EvidenceResult[] }

/** What a decision would rest on now; the page before the signature shows it. Throws Refusal where the lot is not drawn or the plan has no verdict. */
export async function evidenceNow(db: Db, lotId: number): Promise<Evidence> {
  const head = await headOf(db, lotId)
  const [found] = await db.execute<{ results: unknown }>(sql`select ${resultsOf(lotId)} as results`)
  return evidenceIn({ ...head, results: found?.results })
}

/** What the decision rested on, as it was frozen by the signature. */
export async function frozenEvidence(db: Db, lotId: number, after: 'sample' | 'screening'): Promise<Evidence> {
  const [decision] = await db
    .select({ evidence: decisions.evidence })
    .from(decisions)
    .where(and(eq(decisions.lotId, lotId), eq(decisions.after, after)))
  if (!decision) throw new Refusal('missing', `Lot ${lotId} has no such decision`)
  return evidenceIn(decision.evidence)
}

/** The snapshot as the database puts it together: the results of a whole lot need not pass through here. */
export async function snapshotOf(tx: Tx, lotId: number): Promise<SQL> {
  return sql`${JSON.stringify(await headOf(tx, lotId))}::jsonb || jsonb_build_object('results', ${resultsOf(lotId)})`
}

async function headOf(db: Db | Tx, lotId: number): Promise<z.input<typeof evidence>> {
  const { announced, supplier, item, terms, plan, draw, progress, condition, proof, ...story } = await storyOf(
    db,
    lotId,
  )
  if (!plan || !draw || !proof) throw new Refusal('conflict', `Lot ${lotId} has no verdict yet`)
  const { size: announcedSize, cartons, cordsInCarton, productionMark, purchaseOrder } = announced
  const { id, size, verdict } = story
  const packed = { announcedSize, size, cartons, cordsInCarton, productionMark, purchaseOrder }
  const { frozen, tooManyAsSaid, ...frozenTerms } = terms
  return {
    method,
    lot: { id, supplier: supplier.name, item: item.name, lengthMetres: item.lengthMetres, ...packed },
    terms: frozenTerms,
    plan: { ...plan, stages: [...plan.stages] },
    draw,
    progress,
    condition,
    verdict,
    proof,
  }
}

function resultsOf(lotId: number): SQL {
  return sql`(select jsonb_build_object('columns', ${JSON.stringify(columns)}::jsonb, 'rows', coalesce(jsonb_agg(jsonb_build_array(
    d.position, d.purpose, d.pick, d.stands_in_for, r.counts, r.kind, r.state, r.nonconforming,
    r.crosstalk_margin::text, r.return_loss_margin::text, r.wire_map, r.visual, r.note, r.carton, r.spool, r.tester_serial,
    r.entry, p.name, r.recorded_at) order by d.position), '[]'))
    from drawn_cords d
    join results r on r.lot_id = d.lot_id and r.position = d.position
    join people p on p.id = r.recorded_by
    where d.lot_id = ${lotId})`
}

function evidenceIn(json: unknown): Evidence {
  const { results, ...head } = kept.parse(json)
  return { ...head, results: results.rows.map(resultIn) }
}

function resultIn(cells: z.infer<typeof row>) {
  const [position, purpose, pick, standsInFor, counts, kind, state, nonconforming, ...rest] = cells
  const [crosstalkMargin, returnLossMargin, wireMap, visual, note, carton, spool, testerSerial, ...entered] = rest
  const [entry, recordedBy, recordedAt] = entered
  return {
    position,
    purpose,
    pick: pick ?? undefined,
    standsInFor: standsInFor ?? undefined,
    counts,
    kind,
    state,
    nonconforming,
    crosstalkMargin: crosstalkMargin ?? undefined,
    returnLossMargin: returnLossMargin ?? undefined,
    wireMap: wireMap ?? undefined,
    visual: visual ?? undefined,
    note: note ?? undefined,
    carton: carton ?? undefined,
    spool: spool ?? undefined,
    testerSerial: testerSerial ?? undefined,
    entry,
    recordedBy,
    recordedAt,
  }
}
