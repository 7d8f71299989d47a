using System;
using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class SessionsAndRefusals : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.AddColumn<DateTimeOffset>(
                name: "last_used_at",
                table: "api_token",
                type: "timestamp with time zone",
                nullable: true);

            migrationBuilder.AddColumn<string>(
                name: "security_stamp",
                table: "api_token",
                type: "text",
                nullable: true);

            migrationBuilder.CreateTable(
                name: "session",
                columns: table => new
                {
                    id = table.Column<Guid>(type: "uuid", nullable: false),
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    hash = table.Column<byte[]>(type: "bytea", nullable: false),
                    created_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    ended_at = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: true)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_session", x => x.id);
                    table.ForeignKey(
                        name: "fk_session_account_account_id",
                        column: x => x.account_id,
                        principalTable: "account",
                        principalColumn: "id",
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateTable(
                name: "sign_refusal",
                columns: table => new
                {
                    procedure_id = table.Column<Guid>(type: "uuid", nullable: false),
                    revision = table.Column<int>(type: "integer", nullable: false),
                    account_id = table.Column<Guid>(type: "uuid", nullable: false),
                    reason = table.Column<string>(type: "text", nullable: false),
                    group_id = table.Column<Guid>(type: "uuid", nullable: false),
                    window_start = table.Column<DateTimeOffset>(type: "timestamp with time zone", nullable: false),
                    count = table.Column<int>(type: "integer", nullable: false),
                    previous_count = table.Column<int>(type: "integer", nullable: false)
                },
                constraints: table =>
                {
                    table.PrimaryKey("pk_sign_refusal", x => new { x.procedure_id, x.revision, x.account_id, x.reason });
                    table.ForeignKey(
                        name: "fk_sign_refusal_membership_group_id_account_id",
                        columns: x => new { x.group_id, x.account_id },
                        principalTable: "membership",
                        principalColumns: new[] { "group_id", "account_id" },
                        onDelete: ReferentialAction.Restrict);
                    table.ForeignKey(
                        name: "fk_sign_refusal_revision_group_id_procedure_id_revision",
                        columns: x => new { x.group_id, x.procedure_id, x.revision },
                        principalTable: "revision",
                        principalColumns: new[] { "group_id", "procedure_id", "number" },
                        onDelete: ReferentialAction.Restrict);
                });

            migrationBuilder.CreateIndex(
                name: "ix_session_account_id",
                table: "session",
                column: "account_id");

            migrationBuilder.CreateIndex(
                name: "ix_session_created_at",
                table: "session",
                column: "created_at");

            migrationBuilder.CreateIndex(
                name: "ix_session_hash",
                table: "session",
                column: "hash",
                unique: true);

            migrationBuilder.CreateIndex(
                name: "ix_sign_refusal_group_id_account_id",
                table: "sign_refusal",
                columns: new[] { "group_id", "account_id" });

            migrationBuilder.CreateIndex(
                name: "ix_sign_refusal_group_id_procedure_id_revision",
                table: "sign_refusal",
                columns: new[] { "group_id", "procedure_id", "revision" });
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.DropTable(
                name: "session");

            migrationBuilder.DropTable(
                name: "sign_refusal");

            migrationBuilder.DropColumn(
                name: "last_used_at",
                table: "api_token");

            migrationBuilder.DropColumn(
                name: "security_stamp",
                table: "api_token");
        }
    }
}
