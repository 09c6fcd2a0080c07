// The drawn cords in walking order: to be printed, taken along and ticked, or followed on the screen.
import type { CordFacts } from '../../../app/lots/cords/walk.ts'
import type { LotFacts } from '../../../app/lots/show.ts'
import type { Role } from '../../../app/people/person.ts'
import { counted, moment, whole } from '../../figures.ts'
import { type Frame, Page } from '../../layout.tsx'
import { EntryState } from './result.tsx'

/** `after` and `next` are positions: where this page begins and where the next one does. */
type Props = Frame & { roles: Role[]; lot: LotFacts; cords: CordFacts[]; after: number; next: number | undefined }

export function WalkPage({ reader, firm, roles, lot, cords, after, next }: Props) {
  const mayTest = roles.includes('inspector') && (lot.state === 'drawn' || lot.state === 'screening')
  return (
    <Page title={`Drawn cords of lot ${lot.id}`} current="lots" reader={reader} firm={firm}>
      <h1>
        Drawn cords of <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p>
        {lot.supplier.name}, {lot.item.name}, mark {lot.announced.productionMark}. {counted(lot.size, 'cord')} in{' '}
        {counted(lot.announced.cartons, 'carton')}; places are counted from the first one of each carton.
      </p>
      {lot.draw && (
        <p>
          Drawn by {lot.draw.by}, {moment(lot.draw.at)}, from seed <code>{lot.draw.seed}</code>. Fetch exactly these; a
          cord that is missing is recorded as missing, never replaced by its neighbour.
        </p>
      )}
      {mayTest && (
        <p class="actions">
          <a class="button" href={`/lots/${lot.id}/bench`}>
            Go to the bench
          </a>
        </p>
      )}
      {after > 0 && (
        <p class="screen-only">
          <a href={`/lots/${lot.id}/draw`}>From the first carton</a>
        </p>
      )}
      {byCarton(cords).map((inCarton) => (
        <Carton lotId={lot.id} cords={inCarton} />
      ))}
      {next !== undefined && (
        <p>
          <a href={`/lots/${lot.id}/draw?after=${next}`}>The cords after {whole(next)}</a>
        </p>
      )}
    </Page>
  )
}

function Carton({ lotId, cords }: { lotId: number; cords: CordFacts[] }) {
  return (
    <section class="carton">
      <h2>Carton {whole(cords[0]?.carton ?? 0)}</h2>
      <ul class="walk">
        {cords.map((cord) => (
          <li>
            <a href={`/lots/${lotId}/cords/${cord.position}`}>
              place {whole(cord.place)} <small>cord {whole(cord.position)}</small>
            </a>
            <Standing cord={cord} />
          </li>
        ))}
      </ul>
    </section>
  )
}

function Standing({ cord: { result, replacedBy, standsInFor } }: { cord: CordFacts }) {
  return (
    <span class="standing">
      {result ? <EntryState entry={result} /> : <span class="box" aria-label="to be tested" role="img" />}
      {standsInFor !== undefined && <small> stands in for {whole(standsInFor)}</small>}
      {replacedBy !== undefined && <small> {whole(replacedBy)} stands in</small>}
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
