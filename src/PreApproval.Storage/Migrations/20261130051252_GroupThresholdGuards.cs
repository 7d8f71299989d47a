using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class GroupThresholdGuards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(PolicyGuardsSql.Checks);
            migrationBuilder.Sql(PolicyGuardsSql.Triggers);
            migrationBuilder.Sql(PolicyGuardsSql.Grants);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(PolicyGuardsSql.RevokeGrants);
            migrationBuilder.Sql(PolicyGuardsSql.DropTriggers);
            migrationBuilder.Sql(PolicyGuardsSql.DropChecks);
        }
    }
}
