-- The two rules on rows that come by the hundred thousand are looked at once a statement, not once a row.
drop trigger drawn_cords_inside_the_lot on drawn_cords;
--> statement-breakpoint
create or replace function refuse_position_outside_lot() returns trigger language plpgsql as $$
declare
  outside record;
begin
  select a.lot_id, a.position into outside
    from (select lot_id, max(position) as position from added group by lot_id) a
    join plans p on p.lot_id = a.lot_id and a.position > p.lot_size limit 1;
  if found then
    raise exception 'position % is outside lot %', outside.position, outside.lot_id using errcode = 'check_violation', constraint = 'drawn_cords_inside_the_lot';
  end if;
  return null;
end $$;
--> statement-breakpoint
create trigger drawn_cords_inside_the_lot after insert on drawn_cords referencing new table as added
  for each statement execute function refuse_position_outside_lot();
--> statement-breakpoint
create trigger drawn_cords_moved_inside_the_lot after update on drawn_cords referencing new table as added
  for each statement execute function refuse_position_outside_lot();
