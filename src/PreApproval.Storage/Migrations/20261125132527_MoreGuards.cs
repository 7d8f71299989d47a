using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class MoreGuards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(MoreGuardsSql.Checks);
            migrationBuilder.Sql(MoreGuardsSql.Triggers);
            migrationBuilder.Sql(MoreGuardsSql.Grants);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(MoreGuardsSql.RevokeGrants);
            migrationBuilder.Sql(MoreGuardsSql.DropTriggers);
            migrationBuilder.Sql(MoreGuardsSql.DropChecks);
        }
    }
}
