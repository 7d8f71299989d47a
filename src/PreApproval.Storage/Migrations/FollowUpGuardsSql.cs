namespace PreApproval.Storage.Migrations;

/// <summary>
/// How a revision begins: cleared where its screening flags nothing, else in review; and always in review after a revision to which changes were
/// asked for, because whoever asked sees what became of it. One that its author took back in between is looked past.
/// </summary>
internal static class FollowUpGuardsSql
{
    public const string Trigger = """
        CREATE FUNCTION guard_revision_begin() RETURNS trigger LANGUAGE plpgsql AS $$
        DECLARE
            before text := (SELECT r.state FROM revision r
                WHERE r.procedure_id = NEW.procedure_id AND r.number < NEW.number AND r.state <> 'withdrawn' ORDER BY r.number DESC LIMIT 1);
        BEGIN
            IF NEW.version <> 1 OR NEW.state <> (CASE WHEN NEW.verdict = 'review' OR before = 'changes-requested' THEN 'in-review' ELSE 'cleared' END) THEN
                RAISE EXCEPTION 'a revision begins cleared or in review, as its screening and the revision before it say, with version 1' USING ERRCODE = 'restrict_violation';
            END IF;
            RETURN NEW;
        END $$;
        DROP TRIGGER workflow ON revision;
        CREATE TRIGGER workflow BEFORE UPDATE ON revision FOR EACH ROW EXECUTE FUNCTION guard_revision();
        CREATE TRIGGER workflow_begin BEFORE INSERT ON revision FOR EACH ROW EXECUTE FUNCTION guard_revision_begin();
        """;

    public const string DropTrigger = """
        DROP TRIGGER workflow_begin ON revision;
        DROP TRIGGER workflow ON revision;
        CREATE TRIGGER workflow BEFORE INSERT OR UPDATE ON revision FOR EACH ROW EXECUTE FUNCTION guard_revision();
        DROP FUNCTION guard_revision_begin();
        """;
}
