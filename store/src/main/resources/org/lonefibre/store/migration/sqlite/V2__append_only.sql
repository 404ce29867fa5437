create trigger change_record_no_update before update on change_record
begin
  select raise(abort, 'change_record is append-only');
end;

create trigger change_record_no_delete before delete on change_record
begin
  select raise(abort, 'change_record is append-only');
end;

create trigger signature_no_update before update on signature
begin
  select raise(abort, 'signature is append-only');
end;

create trigger signature_no_delete before delete on signature
begin
  select raise(abort, 'signature is append-only');
end;

