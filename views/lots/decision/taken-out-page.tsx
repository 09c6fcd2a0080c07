// The cords found not conforming, by carton and place: accepting never includes them.

import type { LotRecord } from '../../../app/lots/record/lot.ts'
import type { CordFacts } from '../../../app/lots/record/pick-list.ts'
import { ClauseQuoted } from '../../contract-clause.tsx'
import { counted, whole } from '../../figures.ts'
import { type Frame, Page } from '../../layout.tsx'
import { EntryState } from '../cords/result.tsx'
import { placeWords } from '../words.ts'

/** So many stand on one page; `next` is the position after which the others follow. */
type Props = { cords: CordFacts[]; lotId: number; next: number | undefined }

export function TakenOut({ cords, lotId, next }: Props) {
  if (cords.length === 0) return <p>No recorded cord is to be taken out.</p>
  return (
    <>
      <ul class="walk">
        {cords.map((cord) => (
          <li>
            <a href={`/lots/${lotId}/cords/${cord.position}`}>
              {placeWords(cord)} <small>cord {whole(cord.position)}</small>
            </a>
            <span class="standing">{cord.result && <EntryState entry={cord.result} />}</span>
          </li>
        ))}
      </ul>
      {next !== undefined && (
        <p>
          <a href={`/lots/${lotId}/taken-out?after=${next}`}>Those after cord {whole(next)}</a>
        </p>
      )}
    </>
  )
}

/** The list by itself, to be printed and taken along. */
export function TakenOutPage({
  viewer,
  firm,
  done,
  lot,
  cords,
  next,
}: Frame & Omit<Props, 'lotId'> & { lot: LotRecord }) {
  return (
    <Page title={`Cords to be taken out of lot ${lot.id}`} current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>
        Cords to be taken out of <a href={`/lots/${lot.id}`}>lot {lot.id}</a>
      </h1>
      <p>
        {lot.supplier.name}, {lot.item.name}, mark {lot.announced.productionMark}. {counted(cords.length, 'cord')} on
        this page, found not conforming and never among those accepted. Missing cords are not listed.
      </p>
      <ClauseQuoted clause={lot.terms.clause} />
      <TakenOut cords={cords} lotId={lot.id} next={next} />
    </Page>
  )
}
