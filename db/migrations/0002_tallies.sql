-- Tallies in one pass: the rows of a statement are joined with their cords and summed at once, where each row was a call of a function before.
create or replace function tally_inserted() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into tallies as t (lot_id, sample_recorded, sample_nonconforming, rest_recorded, rest_nonconforming, not_tested, sample_not_tested,
    missing, marginal, crosstalk_short, return_loss_short, wire_map_at_fault, visual_at_fault)
  select r.lot_id,
    count(*) filter (where r.counts and d.purpose <> 'rest'), count(*) filter (where r.counts and d.purpose <> 'rest' and r.nonconforming),
    count(*) filter (where r.counts and d.purpose = 'rest'), count(*) filter (where r.counts and d.purpose = 'rest' and r.nonconforming),
    count(*) filter (where r.counts and r.kind <> 'tested'), count(*) filter (where r.counts and r.kind <> 'tested' and d.purpose <> 'rest'),
    count(*) filter (where r.kind = 'missing'), count(*) filter (where r.state = 'marginal'),
    count(*) filter (where r.crosstalk_margin < 0), count(*) filter (where r.return_loss_margin < 0),
    count(*) filter (where r.wire_map = 'at-fault'), count(*) filter (where r.visual = 'at-fault')
  from added r join drawn_cords d on d.lot_id = r.lot_id and d.position = r.position
  group by r.lot_id
  on conflict (lot_id) do update set
    sample_recorded = t.sample_recorded + excluded.sample_recorded,
    sample_nonconforming = t.sample_nonconforming + excluded.sample_nonconforming,
    rest_recorded = t.rest_recorded + excluded.rest_recorded,
    rest_nonconforming = t.rest_nonconforming + excluded.rest_nonconforming,
    not_tested = t.not_tested + excluded.not_tested,
    sample_not_tested = t.sample_not_tested + excluded.sample_not_tested,
    missing = t.missing + excluded.missing,
    marginal = t.marginal + excluded.marginal,
    crosstalk_short = t.crosstalk_short + excluded.crosstalk_short,
    return_loss_short = t.return_loss_short + excluded.return_loss_short,
    wire_map_at_fault = t.wire_map_at_fault + excluded.wire_map_at_fault,
    visual_at_fault = t.visual_at_fault + excluded.visual_at_fault;
  return null;
end $$;
--> statement-breakpoint

-- The same where entries changed: what they were is taken off, what they are is added.
create or replace function tally_updated() returns trigger language plpgsql security definer set search_path = public, pg_temp as $$
begin
  insert into tallies as t (lot_id, sample_recorded, sample_nonconforming, rest_recorded, rest_nonconforming, not_tested, sample_not_tested,
    missing, marginal, crosstalk_short, return_loss_short, wire_map_at_fault, visual_at_fault)
  select r.lot_id,
    coalesce(sum(sign) filter (where r.counts and d.purpose <> 'rest'), 0),
    coalesce(sum(sign) filter (where r.counts and d.purpose <> 'rest' and r.nonconforming), 0),
    coalesce(sum(sign) filter (where r.counts and d.purpose = 'rest'), 0),
    coalesce(sum(sign) filter (where r.counts and d.purpose = 'rest' and r.nonconforming), 0),
    coalesce(sum(sign) filter (where r.counts and r.kind <> 'tested'), 0),
    coalesce(sum(sign) filter (where r.counts and r.kind <> 'tested' and d.purpose <> 'rest'), 0),
    coalesce(sum(sign) filter (where r.kind = 'missing'), 0), coalesce(sum(sign) filter (where r.state = 'marginal'), 0),
    coalesce(sum(sign) filter (where r.crosstalk_margin < 0), 0), coalesce(sum(sign) filter (where r.return_loss_margin < 0), 0),
    coalesce(sum(sign) filter (where r.wire_map = 'at-fault'), 0), coalesce(sum(sign) filter (where r.visual = 'at-fault'), 0)
  from (
    select -1 as sign, lot_id, position, counts, nonconforming, kind, state, crosstalk_margin, return_loss_margin, wire_map, visual from removed
    union all
    select 1, lot_id, position, counts, nonconforming, kind, state, crosstalk_margin, return_loss_margin, wire_map, visual from added
  ) r join drawn_cords d on d.lot_id = r.lot_id and d.position = r.position
  group by r.lot_id
  on conflict (lot_id) do update set
    sample_recorded = t.sample_recorded + excluded.sample_recorded,
    sample_nonconforming = t.sample_nonconforming + excluded.sample_nonconforming,
    rest_recorded = t.rest_recorded + excluded.rest_recorded,
    rest_nonconforming = t.rest_nonconforming + excluded.rest_nonconforming,
    not_tested = t.not_tested + excluded.not_tested,
    sample_not_tested = t.sample_not_tested + excluded.sample_not_tested,
    missing = t.missing + excluded.missing,
    marginal = t.marginal + excluded.marginal,
    crosstalk_short = t.crosstalk_short + excluded.crosstalk_short,
    return_loss_short = t.return_loss_short + excluded.return_loss_short,
    wire_map_at_fault = t.wire_map_at_fault + excluded.wire_map_at_fault,
    visual_at_fault = t.visual_at_fault + excluded.visual_at_fault;
  return null;
end $$;
--> statement-breakpoint
drop function add_tally(integer, tally_change[]);
--> statement-breakpoint
drop function tally_of(results);
--> statement-breakpoint
drop type tally_change;
