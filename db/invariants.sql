-- Words that a later step added to an enumeration are compared as text: before version 17 PostgreSQL refuses them in the transaction that added them,
-- and the restoring of an older dump brings it here and asks all of this in one.
-- A result of the sample is recorded before the sample is decided on
select count(*) from results r join decisions d on d.lot_id = r.lot_id and d.after = 'sample'
join drawn_cords c on c.lot_id = r.lot_id and c.position = r.position
where c.purpose <> 'rest' and d.outcome <> 'screened' and r.recorded_at > d.decided_at;

-- A lot in a decided state has its decision
select count(*) from lots l left join decisions d on d.lot_id = l.id and d.after = 'sample'
where l.state in ('accepted', 'conceded', 'screening', 'screened', 'sorted', 'returned') and d.lot_id is null;

-- A lot before its decision has none
select count(*) from decisions d join lots l on l.id = d.lot_id where l.state in ('announced', 'received', 'planned', 'drawn');

-- A lot has a plan from the moment it is planned
select count(*) from lots l left join plans p on p.lot_id = l.id
where (l.state in ('announced', 'received') and p.lot_id is not null)
  or (l.state not in ('announced', 'received', 'withdrawn') and p.lot_id is null);

-- A lot has a draw from the moment it is drawn
select count(*) from lots l left join draws d on d.lot_id = l.id
where (l.state in ('announced', 'received', 'planned') and d.lot_id is not null)
  or (l.state not in ('announced', 'received', 'planned', 'withdrawn') and d.lot_id is null);

-- As many cords are drawn as the plan says
select count(*) from plans p join draws d on d.lot_id = p.lot_id
where p.sample_size <> (select count(*) from drawn_cords c where c.lot_id = p.lot_id and c.purpose = 'sample');

-- A plan is for the counted size
select count(*) from plans p join lots l on l.id = p.lot_id where p.lot_size <> l.size;

-- A lot's tally is the sum of its results
select count(*) from (
  select l.id, coalesce(t.sample_recorded, 0) as sample, coalesce(t.sample_nonconforming, 0) as sample_found,
    coalesce(t.rest_recorded, 0) as rest, coalesce(t.rest_nonconforming, 0) as rest_found, coalesce(t.not_tested, 0) as untested,
    coalesce(t.sample_not_tested, 0) as sample_untested, coalesce(t.missing, 0) as missing, coalesce(t.marginal, 0) as marginal,
    array[coalesce(t.undecided, 0), coalesce(t.replaced, 0), coalesce(t.no_cord, 0), t.recounted_size] as not_had,
    array[coalesce(t.crosstalk_short, 0), coalesce(t.return_loss_short, 0), coalesce(t.wire_map_at_fault, 0), coalesce(t.visual_at_fault, 0)] as faults
  from lots l left join tallies t on t.lot_id = l.id
) kept join (
  select l.id, count(*) filter (where r.counts and c.purpose <> 'rest') as sample,
    count(*) filter (where r.counts and c.purpose <> 'rest' and r.nonconforming) as sample_found,
    count(*) filter (where r.counts and c.purpose = 'rest') as rest,
    count(*) filter (where r.counts and c.purpose = 'rest' and r.nonconforming) as rest_found,
    count(*) filter (where r.counts and r.kind::text not in ('tested', 'damaged')) as untested,
    count(*) filter (where r.counts and r.kind::text not in ('tested', 'damaged') and c.purpose <> 'rest') as sample_untested,
    array[count(*) filter (where r.undecided), count(*) filter (where not (r.counts or r.undecided or r.kind::text = 'no-cord')),
      count(*) filter (where r.kind::text = 'no-cord'), (select min(size) from recounts n where n.lot_id = l.id)]::int[] as not_had,
    count(*) filter (where r.kind::text in ('missing', 'gone', 'no-cord')) as missing, count(*) filter (where r.state = 'marginal') as marginal,
    array[count(*) filter (where r.crosstalk_margin < 0), count(*) filter (where r.return_loss_margin < 0),
      count(*) filter (where r.wire_map = 'at-fault'), count(*) filter (where r.visual = 'at-fault')]::int[] as faults
  from lots l left join results r on r.lot_id = l.id left join drawn_cords c on c.lot_id = r.lot_id and c.position = r.position
  group by l.id
) counted using (id)
where (kept.sample, kept.sample_found, kept.rest, kept.rest_found, kept.untested, kept.sample_untested, kept.missing, kept.marginal, kept.faults, kept.not_had)
  is distinct from (counted.sample, counted.sample_found, counted.rest, counted.rest_found, counted.untested, counted.sample_untested, counted.missing, counted.marginal, counted.faults, counted.not_had);

-- A lot's tally counts its stand-ins
select count(*) from (select lot_id, count(*) as n from drawn_cords where stands_in_for is not null group by 1) c
full join (select lot_id, stand_ins as n from tallies where stand_ins <> 0) t using (lot_id)
where coalesce(c.n, 0) <> coalesce(t.n, 0);

-- A first fetch's counts are those of the picks that the standard's plan asks for, a stand-in in the place of its pick
select count(*) from (
  select p.lot_id, count(r.lot_id) as recorded, count(r.lot_id) filter (where r.nonconforming) as found
  from plans p
  left join drawn_cords d on d.lot_id = p.lot_id and case
    when d.stands_in_for is null then d.pick <= p.standard_sample_size
    else (
      with recursive chain as (
        select d.stands_in_for as position
        union all
        select c.stands_in_for from chain join drawn_cords c on c.lot_id = p.lot_id and c.position = chain.position where c.stands_in_for is not null
      )
      select min(c.pick) from chain join drawn_cords c on c.lot_id = p.lot_id and c.position = chain.position
    ) <= p.standard_sample_size end
  left join results r on r.lot_id = d.lot_id and r.position = d.position and r.counts
  group by p.lot_id
) counted left join tallies t using (lot_id)
where (counted.recorded, counted.found) is distinct from (coalesce(t.first_fetch_recorded, 0), coalesce(t.first_fetch_found, 0));

-- A lot that was here before names one that went back, of the same supplier and item, and was resubmitted once
select count(*) from lots l join lots f on f.id = coalesce(l.resubmission_of, l.replacement_of)
where (f.supplier_id, f.item_id) is distinct from (l.supplier_id, l.item_id)
  or f.state not in ('returned', 'sorted')
  or l.resubmission_of is not null and (f.state <> 'returned' or f.resubmission_of is not null or l.declared_sorting is null);

-- The counts of a series are the sums of its decisions, those on resubmitted lots left out
select count(*) from (
  select l.supplier_id, l.item_id, count(*) filter (where d.after = 'sample' and l.resubmission_of is null) as lots,
    coalesce(sum(d.recorded) filter (where d.after = 'sample' and l.resubmission_of is null), 0) as recorded,
    coalesce(sum(d.found) filter (where d.after = 'sample' and l.resubmission_of is null), 0) as found,
    count(*) filter (where d.after = 'screening') as closed,
    max(d.decided_at) filter (where d.after = 'sample') as latest
  from decisions d join lots l on l.id = d.lot_id group by 1, 2
) counted full join series_counts kept using (supplier_id, item_id)
where (kept.lots, kept.recorded, kept.found, kept.closed, kept.latest_decided_at)
  is distinct from (counted.lots, counted.recorded, counted.found, counted.closed, counted.latest);

-- A spool's tally is the sum of its results
select count(*) from (
  select lot_id, spool, count(*) as n, count(*) filter (where nonconforming) as f
  from results where spool is not null and kind = 'tested' group by 1, 2
) r full join (select * from spool_tallies where recorded <> 0) s using (lot_id, spool)
where coalesce(r.n, 0) <> coalesce(s.recorded, 0) or coalesce(r.f, 0) <> coalesce(s.nonconforming, 0);

-- The audit tells of every result, recorded or imported
select count(*) from (select lot_id, count(*) as n from results group by 1) r
full join (
  select split_part(subject, '/', 2)::int as lot_id,
    sum(case when action in ('cord.recorded', 'lot.recounted') then 1 else (detail ->> 'count')::int end) as n
  from audit where action in ('cord.recorded', 'lot.recounted', 'cords.imported') group by 1
) a using (lot_id)
where coalesce(r.n, 0) <> coalesce(a.n, 0);

-- Every correction keeps the entry before it, and the audit tells of it
select count(*) from results r
where r.entry <> 1 + (select count(*) from earlier_results e where e.lot_id = r.lot_id and e.position = r.position)
  or r.entry - 1 <> (
    select count(*) from audit a
    where a.action = 'cord.corrected' and a.subject = 'lot/' || r.lot_id || '/cord/' || r.position
  );

-- A cord that another stands in for does not count
select count(*) from drawn_cords s join results r on r.lot_id = s.lot_id and r.position = s.stands_in_for
where s.purpose = 'stand-in' and (r.counts or r.kind = 'tested');

-- A result that does not count is undecided, or replaced, or its place is empty
select count(*) from results r
where not r.counts and not r.undecided and r.kind::text <> 'no-cord' and not exists (select from drawn_cords s where s.lot_id = r.lot_id and s.stands_in_for = r.position);

-- A cord that is gone or spoiled here counts nowhere only as long as nobody has ruled, or as it was ruled
select count(*) from results r full join rulings u using (lot_id, position)
where case when u.lot_id is null then r.kind::text in ('gone', 'spoiled') and not r.counts and not r.undecided
  else r.kind is null or r.kind::text not in ('gone', 'spoiled') or r.undecided or r.counts <> (u.ruling = 'nonconforming') end;

-- A cord is undecided only while the sample is tested, or its lot went back or was withdrawn
select count(*) from results r join lots l on l.id = r.lot_id where r.undecided and l.state not in ('drawn', 'returned', 'withdrawn');

-- Nothing but a return of a rejected lot is signed while a cord is undecided
select count(*) from decisions d
where (d.verdict is distinct from 'reject' or d.outcome <> 'returned') and exists (select from results r where r.lot_id = d.lot_id and r.undecided);

-- An empty place has its recount, and a recount its empty place
select count(*) from (select lot_id, position from results where kind::text = 'no-cord') r full join recounts n using (lot_id, position)
where r.lot_id is null or n.lot_id is null;

-- A lot has no more cords after a recount than places that are not empty
select count(*) from lots l join (select lot_id, min(size) as size, count(*) as n from recounts group by 1) r on r.lot_id = l.id
where r.size > l.size - r.n;

-- The audit tells of each ruling and each recount
select count(*) from (
  select lot_id, position, 'cord.ruled' as action from rulings union all select lot_id, position, 'lot.recounted' from recounts
) done full join (
  select split_part(subject, '/', 2)::int as lot_id, split_part(subject, '/', 4)::int as position, action from audit
  where action in ('cord.ruled', 'lot.recounted')
) told using (lot_id, position, action)
where done.lot_id is null or told.lot_id is null;

-- Who recorded results of a lot did not decide on it
select count(*) from decisions d
where d.duties_separated and exists (select from results r where r.lot_id = d.lot_id and r.recorded_by = d.decided_by);

-- A decision after one sample counted what was recorded
select count(*) from decisions d join tallies t on t.lot_id = d.lot_id join plans p on p.lot_id = d.lot_id
where d.after = 'sample' and jsonb_array_length(p.stages) = 1 and d.recorded <> case
  -- what a stop had left of the sample is recorded by the screening, after this decision
  when d.outcome = 'screened' then (d.evidence -> 'counts' ->> 'sampleRecorded')::int else t.sample_recorded end;

-- A decision's evidence counts the entries that stood at the lot's version it was signed at
select count(*) from decisions d
where (d.evidence -> 'rows' ->> 'count')::int is distinct from (
  select count(*) from results r join drawn_cords c on c.lot_id = r.lot_id and c.position = r.position
  where r.lot_id = d.lot_id and (d.after = 'screening' or c.purpose <> 'rest') and (
    r.lot_version <= (d.evidence -> 'rows' ->> 'lotVersion')::int
    or exists (
      select from earlier_results e
      where e.lot_id = r.lot_id and e.position = r.position and e.lot_version <= (d.evidence -> 'rows' ->> 'lotVersion')::int
    )
  )
);

-- No plan of one sample accepts before the sample is whole
select count(*) from decisions d join plans p on p.lot_id = d.lot_id left join tallies t on t.lot_id = d.lot_id
where d.after = 'sample' and jsonb_array_length(p.stages) = 1 and d.verdict = 'accept' and d.recorded < least(p.sample_size, t.recounted_size);

-- The audit tells of each decision once
select count(*) from (select lot_id, count(*) as n from decisions group by 1) d
full join (
  select split_part(subject, '/', 2)::int as lot_id, count(*) as n from audit
  where action in ('lot.accepted', 'lot.conceded', 'lot.screening', 'lot.returned', 'lot.sorted') group by 1
) a using (lot_id)
where coalesce(d.n, 0) <> coalesce(a.n, 0);

-- The audit tells of each lot, plan and draw once
select abs((select count(*) from lots) - (select count(*) from audit where action = 'lot.announced'))
  + abs((select count(*) from plans) - (select count(*) from audit where action = 'lot.planned'))
  + abs((select count(*) from draws) - (select count(*) from audit where action = 'lot.drawn'));

-- Somebody can decide and add people, once anybody is there
select case when (select count(*) from people) = 0
  or exists (select from people where active and role = 'manager') then 0 else 1 end;

-- Nobody who left has an open session
select count(*) from sessions s join people p on p.id = s.person_id where not p.active;

-- A plan that froze by itself has the rule that was chosen before, and nothing held it up
select count(*) from plans p left join plan_rules r on r.lot_id = p.lot_id and r.kind = p.kind and r.chosen_by = p.chosen_by
where p.chosen_by is not null and (r.lot_id is null or r.waits is not null or r.chosen_at > p.frozen_at);

-- The audit tells of every rule
select count(*) from plan_rules r
where not exists (select from audit a where a.action = 'lot.rule-chosen' and a.subject = 'lot/' || r.lot_id);
