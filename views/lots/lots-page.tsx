// All lots by what waits for whom, the reader's own turn first.

import type { Alerts } from '../../app/desk/alerts.ts'
import type { LotGroup, LotLine, LotsWaiting } from '../../app/desk/work-list.ts'
import type { Role } from '../../app/terms/person.ts'
import { counted, day, whole } from '../figures.ts'
import { Headline } from '../frame.tsx'
import { type Frame, Page } from '../layout.tsx'
import { DataTable } from '../table.tsx'
import { actWords, stateWords } from '../words/lots.ts'
import { AlertList } from './alert-list.tsx'

type Props = Frame & { roles: Role[]; lots: LotsWaiting; alerts: Alerts }

export function LotsPage({ viewer, firm, done, roles, lots, alerts }: Props) {
  const { waiting } = lots
  const own = waiting.filter((group) => roles.includes(group.role))
  const others = waiting.filter((group) => !roles.includes(group.role))
  const turns = own.reduce((sum, group) => sum + group.lots.length, 0)
  return (
    <Page title="Lots" current="lots" viewer={viewer} firm={firm} done={done}>
      <h1>Lots</h1>
      <Headline answer={turns === 0 ? 'No lot waits for you.' : `${counted(turns, 'lot waits', 'lots wait')} for you.`}>
        {roles.includes('officer') && (
          <a class="button" href="/lots/new">
            Announce a lot
          </a>
        )}
      </Headline>
      <AlertList alerts={alerts} />
      {own.map((group) => (
        <Group group={group} whose="you" />
      ))}
      {others.map((group) => (
        <Group group={group} whose={actWords[group.act].whose} />
      ))}
      {lots.done.length > 0 && <Done lots={lots.done} />}
      {lots.done.length > 0 && (
        <p>
          <a href="/lots/calibration">Predicted and found</a>
        </p>
      )}
    </Page>
  )
}

function Group({ group, whose }: { group: LotGroup; whose: string }) {
  return (
    <section>
      <h2>
        {actWords[group.act].waits}: waits for {whose}
      </h2>
      <DataTable
        columns={[
          { head: 'Lot' },
          { head: 'Supplier', text: true },
          { head: 'Item', text: true },
          { head: 'Cords' },
          { head: 'Recorded' },
          { head: 'Since', text: true },
        ]}
        rows={group.lots.map((lot) => ({
          cells: [
            <LotLink lot={lot} />,
            lot.supplier,
            lot.item,
            whole(lot.size),
            lot.toRecord === 0 ? 'not begun' : `${whole(lot.recorded)} of ${whole(lot.toRecord)}`,
            day(lot.since),
          ],
        }))}
      />
    </section>
  )
}

function Done({ lots }: { lots: LotLine[] }) {
  return (
    <section>
      <h2>Done</h2>
      <DataTable
        columns={[
          { head: 'Lot' },
          { head: 'Supplier', text: true },
          { head: 'Item', text: true },
          { head: 'Cords' },
          { head: 'Outcome', text: true },
          { head: 'Since', text: true },
        ]}
        rows={lots.map((lot) => ({
          cells: [
            <LotLink lot={lot} />,
            lot.supplier,
            lot.item,
            whole(lot.size),
            stateWords[lot.state],
            day(lot.since),
          ],
        }))}
      />
    </section>
  )
}

function LotLink({ lot }: { lot: LotLine }) {
  return (
    <>
      <a href={`/lots/${lot.id}`}>Lot {lot.id}</a>
      <small>
        {lot.purchaseOrder}, mark {lot.productionMark}
      </small>
    </>
  )
}
