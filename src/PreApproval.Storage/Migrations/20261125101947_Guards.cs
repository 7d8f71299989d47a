using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class Guards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(GuardsSql.Checks);
            migrationBuilder.Sql(GuardsSql.Triggers);
            migrationBuilder.Sql(GuardsSql.Role);
            migrationBuilder.Sql(GuardsSql.Grants);
        }

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder)
        {
            migrationBuilder.Sql(GuardsSql.RevokeGrants);
            migrationBuilder.Sql(GuardsSql.DropTriggers);
            migrationBuilder.Sql(GuardsSql.DropChecks);
        }
    }
}
