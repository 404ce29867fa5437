create function refuse_change() returns trigger language plpgsql as $$
begin
  raise exception '% is append-only', tg_table_name;
end;
$$;

create trigger change_record_append_only before update or delete on change_record
for each row execute function refuse_change();

create trigger signature_append_only before update or delete on signature
for each row execute function refuse_change();
