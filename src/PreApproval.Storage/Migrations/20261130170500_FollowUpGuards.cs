using Microsoft.EntityFrameworkCore.Migrations;

#nullable disable

namespace PreApproval.Storage.Migrations
{
    /// <inheritdoc />
    public partial class FollowUpGuards : Migration
    {
        /// <inheritdoc />
        protected override void Up(MigrationBuilder migrationBuilder) => migrationBuilder.Sql(FollowUpGuardsSql.Trigger);

        /// <inheritdoc />
        protected override void Down(MigrationBuilder migrationBuilder) => migrationBuilder.Sql(FollowUpGuardsSql.DropTrigger);
    }
}
