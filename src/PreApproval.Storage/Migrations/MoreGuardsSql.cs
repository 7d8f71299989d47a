namespace PreApproval.Storage.Migrations;

/// <summary>Checks and grants for sessions, tokens and counted refusals.</summary>
internal static class MoreGuardsSql
{
    public const string Checks = """
        ALTER TABLE session ADD CONSTRAINT ck_session_hash CHECK (octet_length(hash) = 32);
        ALTER TABLE sign_refusal ADD CONSTRAINT ck_sign_refusal_count CHECK (count >= 1 AND previous_count >= 0);
        """;

    public const string DropChecks = """
        ALTER TABLE sign_refusal DROP CONSTRAINT ck_sign_refusal_count;
        ALTER TABLE session DROP CONSTRAINT ck_session_hash;
        """;

    public const string Grants = $"""
        GRANT SELECT, INSERT, DELETE ON session TO {Migrator.ApplicationRole};
        GRANT UPDATE (ended_at) ON session TO {Migrator.ApplicationRole};
        GRANT SELECT, INSERT ON sign_refusal TO {Migrator.ApplicationRole};
        GRANT UPDATE (window_start, count, previous_count) ON sign_refusal TO {Migrator.ApplicationRole};
        GRANT UPDATE (last_used_at) ON api_token TO {Migrator.ApplicationRole};
        """;

    public const string RevokeGrants = $"""
        REVOKE UPDATE (last_used_at) ON api_token FROM {Migrator.ApplicationRole};
        REVOKE ALL ON sign_refusal, session FROM {Migrator.ApplicationRole};
        """;
}
