// The drawn cords in walking order: to be printed, taken along and ticked, or followed on the screen.

import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { CordFacts } from '../../../app/lots/record/pick-list.ts'
import type { Role } from '../../../app/terms/person.ts'
import { counted, moment, whole } from '../../figures.ts'
import { type Frame, Page } from '../../layout.tsx'
import { mayDo } from '../may.ts'
import { StagesTable } from '../stages.tsx'
import { placeWords, planSentence, stageWords } from '../words.ts'
import { EntryState } from './result.tsx'

/** `after` and `next` are positions: where this page begins and where the next one does. */
type Props = Frame & { roles: Role[]; lot: LotRecord; cords: CordFacts[]; after: number; next: number | undefined }

export function PickListPage({ viewer, firm, done, roles, lot, cords, after, next }: Props) {
  const mayTest = mayDo('record', { lot, roles })
  // While the whole lot is tested one walks from carton to carton, whatever stage a cord was drawn for.
  const staged = (lot.plan?.stages.length ?? 1) > 1 && lot.decision?.outcome !== 'screened'
  return (
    <Page title={`Drawn cords of lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Drawn cords of <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <Head lot={lot} mayTest={mayTest} />
      {after > 0 && (
        <p class="screen-only">
          <a href={`/lots/${lot.id}/draw`}>From the first cord</a>
        </p>
      )}
      {lot.plan && staged ? (
        <>
          <p>{planSentence(lot.plan)}</p>
          <StagesTable stages={lot.plan.stages} />
          <Stages lot={lot} plan={lot.plan} cords={cords} />
        </>
      ) : (
        <InWalks lot={lot} cords={cords} />
      )}
      {next !== undefined && (
        <p>
          <a href={`/lots/${lot.id}/draw?after=${next}`}>The cords after {whole(next)}</a>
        </p>
      )}
    </Page>
  )
}

function Head({ lot, mayTest }: { lot: LotRecord; mayTest: boolean }) {
  return (
    <>
      <p>
        {lot.supplier.name}, {lot.item.name}, mark {lot.announced.productionMark}. {counted(lot.size, 'cord')} in{' '}
        {counted(lot.announced.cartons, 'carton')}; places are counted from the first one of each carton.
      </p>
      {lot.draw && (
        <p>
          Drawn by {lot.draw.by}, {moment(lot.draw.at)}, from seed <code>{lot.draw.seed}</code>. Fetch exactly these; a
          cord that is not there is recorded so, never replaced by its neighbour.
        </p>
      )}
      {mayTest && (
        <p class="actions">
          <a class="button" href={`/lots/${lot.id}/bench`}>
            Go to the bench
          </a>
        </p>
      )}
    </>
  )
}

type StagesProps = { lot: LotRecord; plan: NonNullable<LotRecord['plan']>; cords: CordFacts[] }

/** Sample after sample, each from carton to carton; cord by cord there is only the order of the draw. */
function Stages({ lot, plan, cords }: StagesProps) {
  if (plan.kind === 'sequential')
    return (
      <section>
        <h2>Cord by cord, in this order</h2>
        <ol class="walk">
          {cords.map((cord) => (
            <li>
              <CordLink lotId={lot.id} cord={cord} name={`${whole(cord.stage ?? 0)}: ${placeWords(cord)}`} />
            </li>
          ))}
        </ol>
      </section>
    )
  return (
    <>
      {plan.stages.map((_, index) => {
        const ofStage = cords.filter(({ stage }) => stage === index + 1)
        if (ofStage.length === 0) return null
        return (
          <section class="stage">
            <h2>{capitalised(stageWords(plan, index + 1) ?? '')}</h2>
            {index > 0 && (
              <p>
                Only if the {plan.kind === 'groups' ? 'groups' : 'samples'} before leave the plan without a verdict.
              </p>
            )}
            <InWalks lot={lot} cords={ofStage} inStage />
          </section>
        )
      })}
    </>
  )
}

function capitalised(words: string): string {
  return words.charAt(0).toUpperCase() + words.slice(1)
}

/** The first fetch is a walk of its own, before the others. */
function InWalks({ lot, cords, inStage }: { lot: LotRecord; cords: CordFacts[]; inStage?: boolean }) {
  const first = cords.filter((cord) => cord.firstFetch)
  const others = cords.filter((cord) => !cord.firstFetch)
  if (first.length === 0 || !lot.firstFetch) return <Cartons lotId={lot.id} cords={cords} inStage={inStage} />
  return (
    <>
      <section class="stage">
        <h2>First fetch</h2>
        <p>
          The first {whole(lot.firstFetch.sampleSize)} picks of the draw, for the standard’s verdict. Test these first,
          all of them, also where the plan rejects before; {whole(lot.firstFetch.rejectionNumber)} that{' '}
          {lot.firstFetch.rejectionNumber === 1 ? 'does' : 'do'} not conform end it.
        </p>
        <Cartons lotId={lot.id} cords={first} inStage />
      </section>
      {others.length > 0 && (
        <section class="stage">
          <h2>The others</h2>
          <Cartons lotId={lot.id} cords={others} inStage />
        </section>
      )}
    </>
  )
}

function Cartons({ lotId, cords, inStage }: { lotId: number; cords: CordFacts[]; inStage?: boolean | undefined }) {
  return (
    <>
      {byCarton(cords).map((inCarton) => (
        <Carton lotId={lotId} cords={inCarton} inStage={inStage} />
      ))}
    </>
  )
}

type CartonProps = { lotId: number; cords: CordFacts[]; inStage: boolean | undefined }

function Carton({ lotId, cords, inStage }: CartonProps) {
  const name = `Carton ${whole(cords[0]?.carton ?? 0)}`
  return (
    <section class="carton">
      {inStage ? <h3>{name}</h3> : <h2>{name}</h2>}
      <ul class="walk">
        {cords.map((cord) => (
          <li>
            <CordLink lotId={lotId} cord={cord} name={`place ${whole(cord.place)}`} />
          </li>
        ))}
      </ul>
    </section>
  )
}

function CordLink({ lotId, cord, name }: { lotId: number; cord: CordFacts; name: string }) {
  return (
    <>
      <a href={`/lots/${lotId}/cords/${cord.position}`}>
        {name} <small>cord {whole(cord.position)}</small>
      </a>
      <Standing cord={cord} />
    </>
  )
}

function Standing({ cord: { result, replacedBy, standsInFor } }: { cord: CordFacts }) {
  return (
    <span class="standing">
      {result ? <EntryState entry={result} /> : <span class="box" aria-label="to be tested" role="img" />}
      {standsInFor !== undefined && <small> reserve for {whole(standsInFor)}</small>}
      {replacedBy !== undefined && <small> {whole(replacedBy)} is tested in its place</small>}
    </span>
  )
}

function byCarton(cords: CordFacts[]): CordFacts[][] {
  const cartons = new Map<number, CordFacts[]>()
  for (const cord of cords) {
    const inCarton = cartons.get(cord.carton)
    if (inCarton) inCarton.push(cord)
    else cartons.set(cord.carton, [cord])
  }
  return [...cartons.values()]
}
