using System;
using Microsoft.EntityFrameworkCore.Migrations;
using Npgsql.EntityFrameworkCore.PostgreSQL.Metadata;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Initial : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.CreateTable(
                name: "account",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    display_name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    deactivated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_user_name = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    normalized_email = table.Column<string>(type: "character varying(256)", maxLength: 256, nullable: true),
                    email_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    password_hash = table.Column<string>(type: "text", nullable: true),
                    security_stamp = table.Column<string>(type: "text", nullable: true),
                    concurrency_stamp = table.Column<string>(type: "text", nullable: true),
                    phone_number = table.Column<string>(type: "text", nullable: true),
                    phone_number_confirmed = table.Column<bool>(type: "boolean", nullable: false),
                    two_factor_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    lockout_end = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true),
                    lockout_enabled = table.Column<bool>(type: "boolean", nullable: false),
                    access_failed_count = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "data_protection_key",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    friendly_name = table.Column<string>(type: "text", nullable: true),
                    xml = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_data_protection_key", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "research_group",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    name = table.Column<string>(type: "character varying(200)", maxLength: 200, nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_research_group", x => x.id);
                });

            migrationBuilder.CreateTable(
                name: "account_claim",
                columns: table => new
                {
                    id = table.Column<int>(type: "integer", nullable: false)
                        .Annotation("Npgsql:ValueGenerationStrategy", NpgsqlValueGenerationStrategy.IdentityByDefaultColumn),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    claim_type = table.Column<string>(type: "text", nullable: true),
                    claim_value = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_claim", x => x.id);
                    table.ForeignKey(
                        name: "fk_account_claim_account_user_id",
                        column: x => x.user_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "account_login",
                columns: table => new
                {
                    login_provider = table.Column<string>(type: "text", nullable: false),
                    provider_key = table.Column<string>(type: "text", nullable: false),
                    provider_display_name = table.Column<string>(type: "text", nullable: true),
                    user_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_login", x => new { x.login_provider, x.provider_key });
                    table.ForeignKey(
                        name: "fk_account_login_account_user_id",
                        column: x => x.user_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "account_token",
                columns: table => new
                {
                    user_id = table.Column<Guid>(type: "uuid", nullable: false),
                    login_provider = table.Column<string>(type: "text", nullable: false),
                    name = table.Column<string>(type: "text", nullable: false),
                    value = table.Column<string>(type: "text", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_account_token", x => new { x.user_id, x.login_provider, x.name });
                    table.ForeignKey(
                        name: "fk_account_token_account_user_id",
                        column: x => x.user_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Cascade);
                });

            migrationBuilder.CreateTable(
                name: "api_token",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    expires_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    revoked_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_api_token", x => x.id);
                    table.ForeignKey(
                        name: "fk_api_token_account_account_id",
                        column: x => x.account_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "idempotency_record",
                columns: table => new
                {
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    key = table.Column<string>(type: "character varying(255)", maxLength: 255, nullable: false),
                    request_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    status = table.Column<int>(type: "integer", nullable: true),
                    headers = table.Column<string>(type: "text", nullable: true),
                    body = table.Column<byte[]>(type: "bytea", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_idempotency_record", x => new { x.account_id, x.key });
                    table.ForeignKey(
                        name: "fk_idempotency_record_account_account_id",
                        column: x => x.account_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "audit_event",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    seq = table.Column<long>(type: "bigint", nullable: false),
                    leaf_bytes = table.Column<byte[]>(type: "bytea", nullable: false),
                    leaf_hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    actor_id = table.Column<Guid>(type: "uuid", nullable: false),
                    actor_name = table.Column<string>(type: "text", nullable: false),
                    actor_role = table.Column<string>(type: "text", nullable: false),
                    action = table.Column<string>(type: "text", nullable: false),
                    subject_type = table.Column<string>(type: "text", nullable: false),
                    subject_id = table.Column<Guid>(type: "uuid", nullable: false),
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: true),
                    procedure_title = table.Column<string>(type: "text", nullable: true),
                    revision = table.Column<int>(type: "integer", nullable: true),
                    reason = table.Column<string>(type: "text", nullable: true),
                    summary = table.Column<string>(type: "text", nullable: false),
                    request_id = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_audit_event", x => new { x.group_id, x.seq });
                    table.ForeignKey(
                        name: "fk_audit_event_research_group_group_id",
                        column: x => x.group_id,
                        principalTable: "research_group",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "audit_head",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    size = table.Column<long>(type: "bigint", nullable: false),
                    compact_range = table.Column<byte[]>(type: "bytea", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_audit_head", x => x.group_id);
                    table.ForeignKey(
                        name: "fk_audit_head_research_group_group_id",
                        column: x => x.group_id,
                        principalTable: "research_group",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "group_policy",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    countersign_dangers = table.Column<bool>(type: "boolean", nullable: false),
                    review_days = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_group_policy", x => x.group_id);
                    table.ForeignKey(
                        name: "fk_group_policy_research_group_group_id",
                        column: x => x.group_id,
                        principalTable: "research_group",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "membership",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    since = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    changed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_membership", x => new { x.group_id, x.account_id });
                    table.ForeignKey(
                        name: "fk_membership_account_account_id",
                        column: x => x.account_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_membership_research_group_group_id",
                        column: x => x.group_id,
                        principalTable: "research_group",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "membership_competence",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    hazard = table.Column<string>(type: "text", nullable: false),
                    granted_by = table.Column<Guid>(type: "uuid", nullable: false),
                    granted_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_membership_competence", x => new { x.group_id, x.account_id, x.hazard });
                    table.ForeignKey(
                        name: "fk_membership_competence_membership_group_id_account_id",
                        columns: x => new { x.group_id, x.account_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "membership_role",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    role = table.Column<string>(type: "text", nullable: false),
                    granted_by = table.Column<Guid>(type: "uuid", nullable: false),
                    granted_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_membership_role", x => new { x.group_id, x.account_id, x.role });
                    table.ForeignKey(
                        name: "fk_membership_role_membership_group_id_account_id",
                        columns: x => new { x.group_id, x.account_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "procedure",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    author_id = table.Column<Guid>(type: "uuid", nullable: false),
                    title = table.Column<string>(type: "text", nullable: false),
                    latest_revision = table.Column<int>(type: "integer", nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    updated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_procedure", x => x.id);
                    table.UniqueConstraint("ak_procedure_group_id_id", x => new { x.group_id, x.id });
                    table.ForeignKey(
                        name: "fk_procedure_membership_group_id_author_id",
                        columns: x => new { x.group_id, x.author_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "routing_rule",
                columns: table => new
                {
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    position = table.Column<int>(type: "integer", nullable: false),
                    hazard = table.Column<string>(type: "text", nullable: false),
                    reviewer_id = table.Column<Guid>(type: "uuid", nullable: false),
                    deputy_id = table.Column<Guid>(type: "uuid", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_routing_rule", x => new { x.group_id, x.position });
                    table.ForeignKey(
                        name: "fk_routing_rule_membership_group_id_deputy_id",
                        columns: x => new { x.group_id, x.deputy_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_routing_rule_membership_group_id_reviewer_id",
                        columns: x => new { x.group_id, x.reviewer_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "draft",
                columns: table => new
                {
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    title = table.Column<string>(type: "text", nullable: false),
                    document = table.Column<byte[]>(type: "bytea", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false),
                    saved_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    submitted_as = table.Column<int>(type: "integer", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_draft", x => x.procedure_id);
                    table.ForeignKey(
                        name: "fk_draft_procedure_group_id_procedure_id",
                        columns: x => new { x.group_id, x.procedure_id },
                        principalTable: "procedure",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "notice",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    recipient_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "text", nullable: false),
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    revision = table.Column<int>(type: "integer", nullable: false),
                    text = table.Column<string>(type: "text", nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    read_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_notice", x => x.id);
                    table.UniqueConstraint("ak_notice_group_id_id", x => new { x.group_id, x.id });
                    table.ForeignKey(
                        name: "fk_notice_membership_group_id_recipient_id",
                        columns: x => new { x.group_id, x.recipient_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_notice_procedure_group_id_procedure_id",
                        columns: x => new { x.group_id, x.procedure_id },
                        principalTable: "procedure",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "procedure_editor",
                columns: table => new
                {
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_procedure_editor", x => new { x.procedure_id, x.account_id });
                    table.ForeignKey(
                        name: "fk_procedure_editor_account_account_id",
                        column: x => x.account_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_procedure_editor_procedure_group_id_procedure_id",
                        columns: x => new { x.group_id, x.procedure_id },
                        principalTable: "procedure",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "revision",
                columns: table => new
                {
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    number = table.Column<int>(type: "integer", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    author_id = table.Column<Guid>(type: "uuid", nullable: false),
                    title = table.Column<string>(type: "text", nullable: false),
                    state = table.Column<string>(type: "text", nullable: false),
                    version = table.Column<int>(type: "integer", nullable: false),
                    submitted_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    document = table.Column<byte[]>(type: "bytea", nullable: false),
                    document_digest = table.Column<string>(type: "text", nullable: false),
                    screening = table.Column<byte[]>(type: "bytea", nullable: false),
                    screening_digest = table.Column<string>(type: "text", nullable: false),
                    verdict = table.Column<string>(type: "text", nullable: false),
                    worst = table.Column<string>(type: "text", nullable: true),
                    finding_count = table.Column<int>(type: "integer", nullable: false),
                    engine_version = table.Column<string>(type: "text", nullable: false),
                    data_digest = table.Column<string>(type: "text", nullable: false),
                    policy_digest = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_revision", x => new { x.procedure_id, x.number });
                    table.UniqueConstraint("ak_revision_group_id_procedure_id_number", x => new { x.group_id, x.procedure_id, x.number });
                    table.ForeignKey(
                        name: "fk_revision_procedure_group_id_procedure_id",
                        columns: x => new { x.group_id, x.procedure_id },
                        principalTable: "procedure",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "outbox",
                columns: table => new
                {
                    notice_id = table.Column<Guid>(type: "uuid", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    attempts = table.Column<int>(type: "integer", nullable: false),
                    sent_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_outbox", x => x.notice_id);
                    table.ForeignKey(
                        name: "fk_outbox_notice_group_id_notice_id",
                        columns: x => new { x.group_id, x.notice_id },
                        principalTable: "notice",
                        principalColumns: new[] { "group_id", "id" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "finding",
                columns: table => new
                {
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    revision = table.Column<int>(type: "integer", nullable: false),
                    ordinal = table.Column<int>(type: "integer", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    finding_id = table.Column<string>(type: "text", nullable: false),
                    hazard = table.Column<string>(type: "text", nullable: false),
                    severity = table.Column<string>(type: "text", nullable: false),
                    leaves_check_undone = table.Column<bool>(type: "boolean", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_finding", x => new { x.procedure_id, x.revision, x.ordinal });
                    table.ForeignKey(
                        name: "fk_finding_revision_group_id_procedure_id_revision",
                        columns: x => new { x.group_id, x.procedure_id, x.revision },
                        principalTable: "revision",
                        principalColumns: new[] { "group_id", "procedure_id", "number" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "slot",
                columns: table => new
                {
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    revision = table.Column<int>(type: "integer", nullable: false),
                    slot = table.Column<string>(type: "text", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    kind = table.Column<string>(type: "text", nullable: false),
                    assignee_id = table.Column<Guid>(type: "uuid", nullable: false),
                    hazards = table.Column<string[]>(type: "text[]", nullable: false),
                    required_competences = table.Column<string[]>(type: "text[]", nullable: false),
                    required_role = table.Column<string>(type: "text", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    open = table.Column<bool>(type: "boolean", nullable: false),
                    since = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    due = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_slot", x => new { x.procedure_id, x.revision, x.slot });
                    table.UniqueConstraint("ak_slot_group_id_procedure_id_revision_slot", x => new { x.group_id, x.procedure_id, x.revision, x.slot });
                    table.ForeignKey(
                        name: "fk_slot_membership_group_id_assignee_id",
                        columns: x => new { x.group_id, x.assignee_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_slot_revision_group_id_procedure_id_revision",
                        columns: x => new { x.group_id, x.procedure_id, x.revision },
                        principalTable: "revision",
                        principalColumns: new[] { "group_id", "procedure_id", "number" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "decision",
                columns: table => new
                {
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    revision = table.Column<int>(type: "integer", nullable: false),
                    slot = table.Column<string>(type: "text", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    decision = table.Column<string>(type: "text", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    answers = table.Column<string>(type: "jsonb", nullable: false),
                    signer_id = table.Column<Guid>(type: "uuid", nullable: false),
                    signer_name = table.Column<string>(type: "text", nullable: false),
                    signer_role = table.Column<string>(type: "text", nullable: false),
                    meaning = table.Column<string>(type: "text", nullable: false),
                    signed_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    authentication_method = table.Column<string>(type: "text", nullable: false),
                    authenticated_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    bound = table.Column<byte[]>(type: "bytea", nullable: false),
                    bound_digest = table.Column<string>(type: "text", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_decision", x => new { x.procedure_id, x.revision, x.slot });
                    table.ForeignKey(
                        name: "fk_decision_membership_group_id_signer_id",
                        columns: x => new { x.group_id, x.signer_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_decision_slot_group_id_procedure_id_revision_slot",
                        columns: x => new { x.group_id, x.procedure_id, x.revision, x.slot },
                        principalTable: "slot",
                        principalColumns: new[] { "group_id", "procedure_id", "revision", "slot" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_account_normalized_email",
                table: "account",
                column: "normalized_email");

            migrationBuilder.CreateIndex(
                name: "ix_account_normalized_user_name",
                table: "account",
                column: "normalized_user_name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_account_claim_user_id",
                table: "account_claim",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_account_login_user_id",
                table: "account_login",
                column: "user_id");

            migrationBuilder.CreateIndex(
                name: "ix_api_token_account_id",
                table: "api_token",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_api_token_hash",
                table: "api_token",
                column: "hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_audit_event_group_id_actor_id_seq",
                table: "audit_event",
                columns: new[] { "group_id", "actor_id", "seq" });

            migrationBuilder.CreateIndex(
                name: "ix_audit_event_group_id_procedure_id_seq",
                table: "audit_event",
                columns: new[] { "group_id", "procedure_id", "seq" });

            migrationBuilder.CreateIndex(
                name: "ix_decision_group_id_procedure_id_revision_slot",
                table: "decision",
                columns: new[] { "group_id", "procedure_id", "revision", "slot" });

            migrationBuilder.CreateIndex(
                name: "ix_decision_group_id_signer_id",
                table: "decision",
                columns: new[] { "group_id", "signer_id" });

            migrationBuilder.CreateIndex(
                name: "ix_draft_group_id_procedure_id",
                table: "draft",
                columns: new[] { "group_id", "procedure_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_finding_group_id_procedure_id_revision",
                table: "finding",
                columns: new[] { "group_id", "procedure_id", "revision" });

            migrationBuilder.CreateIndex(
                name: "ix_idempotency_record_created_at",
                table: "idempotency_record",
                column: "created_at");

            migrationBuilder.CreateIndex(
                name: "ix_membership_account_id",
                table: "membership",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_notice_group_id_procedure_id",
                table: "notice",
                columns: new[] { "group_id", "procedure_id" });

            migrationBuilder.CreateIndex(
                name: "ix_notice_group_id_recipient_id_created_at",
                table: "notice",
                columns: new[] { "group_id", "recipient_id", "created_at" });

            migrationBuilder.CreateIndex(
                name: "ix_outbox_created_at",
                table: "outbox",
                column: "created_at",
                filter: "sent_at IS NULL");

            migrationBuilder.CreateIndex(
                name: "ix_outbox_group_id_notice_id",
                table: "outbox",
                columns: new[] { "group_id", "notice_id" },
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_procedure_group_id_author_id",
                table: "procedure",
                columns: new[] { "group_id", "author_id" });

            migrationBuilder.CreateIndex(
                name: "ix_procedure_group_id_updated_at_id",
                table: "procedure",
                columns: new[] { "group_id", "updated_at", "id" });

            migrationBuilder.CreateIndex(
                name: "ix_procedure_editor_account_id",
                table: "procedure_editor",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_procedure_editor_group_id_procedure_id",
                table: "procedure_editor",
                columns: new[] { "group_id", "procedure_id" });

            migrationBuilder.CreateIndex(
                name: "ix_research_group_name",
                table: "research_group",
                column: "name",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_revision_group_id_state",
                table: "revision",
                columns: new[] { "group_id", "state" });

            migrationBuilder.CreateIndex(
                name: "ix_routing_rule_group_id_deputy_id",
                table: "routing_rule",
                columns: new[] { "group_id", "deputy_id" });

            migrationBuilder.CreateIndex(
                name: "ix_routing_rule_group_id_reviewer_id",
                table: "routing_rule",
                columns: new[] { "group_id", "reviewer_id" });

            migrationBuilder.CreateIndex(
                name: "ix_slot_group_id_assignee_id",
                table: "slot",
                columns: new[] { "group_id", "assignee_id" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "account_claim");

            migrationBuilder.DropTable(
                name: "account_login");

            migrationBuilder.DropTable(
                name: "account_token");

            migrationBuilder.DropTable(
                name: "api_token");

            migrationBuilder.DropTable(
                name: "audit_event");

            migrationBuilder.DropTable(
                name: "audit_head");

            migrationBuilder.DropTable(
                name: "data_protection_key");

            migrationBuilder.DropTable(
                name: "decision");

            migrationBuilder.DropTable(
                name: "draft");

            migrationBuilder.DropTable(
                name: "finding");

            migrationBuilder.DropTable(
                name: "group_policy");

            migrationBuilder.DropTable(
                name: "idempotency_record");

            migrationBuilder.DropTable(
                name: "membership_competence");

            migrationBuilder.DropTable(
                name: "membership_role");

            migrationBuilder.DropTable(
                name: "outbox");

            migrationBuilder.DropTable(
                name: "procedure_editor");

            migrationBuilder.DropTable(
                name: "routing_rule");

            migrationBuilder.DropTable(
                name: "slot");

            migrationBuilder.DropTable(
                name: "notice");

            migrationBuilder.DropTable(
                name: "revision");

            migrationBuilder.DropTable(
                name: "procedure");

            migrationBuilder.DropTable(
                name: "membership");

            migrationBuilder.DropTable(
                name: "account");

            migrationBuilder.DropTable(
                name: "research_group");
        }
    }
}
